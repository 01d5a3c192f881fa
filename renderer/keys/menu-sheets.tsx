/** Sheets that only the menu and the command field lead to: cautions, about. */
import { signal } from '@preact/signals';
import { Cautions } from '../design/cautions.tsx';
import { session } from '../store/session-store.ts';
import { words } from '../words/words.ts';
import { SheetDialog } from './sheet-dialog.tsx';

export const menuSheet = signal<'cautions' | 'about' | null>(null);

export function MenuSheets() {
  const text = words.value;
  const close = () => (menuSheet.value = null);
  if (menuSheet.value === null) return null;
  if (menuSheet.value === 'cautions')
    return (
      <SheetDialog title={text.cautions.title} onClose={close}>
        <Cautions isSheet />
      </SheetDialog>
    );
  const now = session.value;
  return (
    <SheetDialog title={text.about.title} onClose={close}>
      <dl class="facts">
        <dt>{text.archive.program}</dt>
        <dd>{now === null ? text.common.none : text.about.version(now.recorder.programVersion)}</dd>
        <dt>{text.about.archive}</dt>
        <dd>{now?.archive.path ?? text.common.none}</dd>
        <dt>{text.about.recorder}</dt>
        <dd class="number">{now?.recorder.pid ?? text.common.none}</dd>
      </dl>
      <p>{text.cautions.notSafety}</p>
      <p>{text.cautions.govern}</p>
    </SheetDialog>
  );
}
