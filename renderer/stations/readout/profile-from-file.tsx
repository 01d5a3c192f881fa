/** A readout profile from a file: asked for, checked, and handed on. */
import { useSignal } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import type { Fault } from '../../../core/contract/index.ts';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { errand } from '../../store/errand.ts';
import { request } from '../../store/session-store.ts';
import type { Words } from '../../words/en.ts';
import { words } from '../../words/words.ts';
import { readProfileText } from './profile-file.ts';

export function ProfileFromFile({
  id,
  onOpened,
}: {
  readonly id: string;
  readonly onOpened: (profile: ReadoutProfile) => void;
}) {
  const taking = useMemo(errand, []);
  /** What is wrong with the file, told when it is drawn. */
  const wrong = useSignal<{ readonly inWords: (words: Words['readout']) => string } | null>(null);
  const take = async () => {
    wrong.value = null;
    const opened = await taking.run(() => request('window.open-text', { kind: 'profile' }));
    const file = opened?.file ?? null;
    if (file === null) return;
    const outcome = readProfileText(file);
    if (outcome.ok) onOpened(outcome.profile);
    else wrong.value = { inWords: outcome.sentenceIn };
  };
  const fault: Fault | null =
    wrong.value === null
      ? taking.fault.value
      : { code: 'readout-profile-wrong', sentence: wrong.value.inWords(words.value.readout) };
  return (
    <div class="profile-file">
      <Button kind="compact" id={id} onPress={() => void take()}>
        {words.value.readout.fromFile}
      </Button>
      <FaultBlock fault={fault} />
    </div>
  );
}

/** Kept among the profiles of this archive, then handed on. */
export function KeptProfileFromFile({ onKept }: { readonly onKept: (profile: ReadoutProfile) => void }) {
  const keeping = useMemo(errand, []);
  const keep = async (profile: ReadoutProfile) => {
    if ((await keeping.run(() => request('readout.save-profile', { profile }))) === null) return;
    onKept(profile);
    say(words.value.readout.profileKept(profile.name));
  };
  return (
    <>
      <ProfileFromFile id="profile-from-file" onOpened={(profile) => void keep(profile)} />
      <FaultBlock fault={keeping.fault.value} />
    </>
  );
}
