/** A sheet laid over the page: keys, cautions, about. Closed by its button, by Escape, or by going elsewhere. */
import type { ComponentChildren } from 'preact';
import { useEffect, useId, useRef } from 'preact/hooks';
import { Button } from '../design/button.tsx';
import { words } from '../words/words.ts';
import './keys-sheet.css';

export interface SheetDialogProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ComponentChildren;
}

export function SheetDialog({ title, onClose, children }: SheetDialogProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} class="sheet-dialog" aria-labelledby={id} onClose={onClose}>
      <header>
        <h2 id={id}>{title}</h2>
        <Button onPress={() => dialog.current?.close()}>{words.value.common.close}</Button>
      </header>
      {children}
    </dialog>
  );
}
