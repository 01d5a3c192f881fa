/** A sheet laid over the page: keys, cautions, about. Closed by its button, by Escape, or by going elsewhere. */
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import { Button } from '../design/button.tsx';
import { useModal } from '../design/modal.ts';
import { words } from '../words/words.ts';
import './keys-sheet.css';

export interface SheetDialogProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ComponentChildren;
}

export function SheetDialog({ title, onClose, children }: SheetDialogProps) {
  const id = useId();
  const modal = useModal(onClose);
  return (
    <dialog {...modal} class="sheet-dialog" aria-labelledby={id}>
      <header>
        <h2 id={id}>{title}</h2>
        <Button onPress={modal.onClose}>{words.value.common.close}</Button>
      </header>
      {children}
    </dialog>
  );
}
