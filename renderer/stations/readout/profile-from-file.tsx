/** A readout profile from a file: asked for, checked, kept, and chosen at once. */
import type { Fault } from '../../../core/contract/index.ts';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { errand } from '../../store/errand.ts';
import { request } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';
import { readProfileText } from './profile-file.ts';

const taking = errand();

export function ProfileFromFile({ onKept }: { readonly onKept: (profile: ReadoutProfile) => void }) {
  const take = async () => {
    const text = words.value.readout;
    const opened = await taking.run(() => request('window.open-text', { kind: 'profile' }));
    const file = opened?.file ?? null;
    if (file === null) return;
    const outcome = readProfileText(file, text);
    if (!outcome.ok) {
      const fault: Fault = { code: 'readout-profile-wrong', sentence: outcome.sentence };
      taking.fault.value = fault;
      return;
    }
    const { profile } = outcome;
    if ((await taking.run(() => request('readout.save-profile', { profile }))) === null) return;
    onKept(profile);
    say(text.profileKept(profile.name));
  };
  return (
    <div class="profile-file">
      <Button kind="compact" id="profile-from-file" onPress={() => void take()}>
        {words.value.readout.fromFile}
      </Button>
      <FaultBlock fault={taking.fault.value} />
    </div>
  );
}
