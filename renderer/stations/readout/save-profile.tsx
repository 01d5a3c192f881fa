/** The chosen profile as a file, for another machine or shop: what "Profile from a file…" takes there. */
import { useMemo } from 'preact/hooks';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { errand } from '../../store/errand.ts';
import { request } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';

export function SaveProfile({
  profile,
  onSaved,
}: {
  readonly profile: ReadoutProfile;
  readonly onSaved: () => void;
}) {
  const text = words.value.readout;
  const saving = useMemo(errand, []);
  const save = async (): Promise<void> => {
    const saved = await saving.run(() =>
      request('window.save-sheet', { kind: 'profile', suggestedName: profile.name, profile }),
    );
    if (saved === null || saved.path === null) return;
    onSaved();
    say(text.profileSaved(saved.path));
  };
  return (
    <div class="profile-file">
      <Button kind="compact" id="save-profile" onPress={() => void save()}>
        {text.toFile}
      </Button>
      <FaultBlock fault={saving.fault.value} />
    </div>
  );
}
