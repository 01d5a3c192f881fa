/** A dialog over the page: shown before the next key, told once that it closes, with the focus back where it was. */
import { type RefObject } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { drawnAtOnce } from './drawn-at-once.ts';

export interface Modal {
  readonly ref: RefObject<HTMLDialogElement | null>;
  readonly onCancel: () => void;
  readonly onClose: () => void;
}

/** What a `<dialog>` takes; `onClose` draws the page without it. */
export function useModal(onClose: () => void): Modal {
  const ref = useRef<HTMLDialogElement>(null);
  const closed = useRef(false);
  useLayoutEffect(() => {
    const dialog = ref.current;
    dialog?.showModal();
    return () => dialog?.close();
  }, []);
  // Escape tells it at once; the browser tells of the closing a while later, when the next question may be there already.
  const closeOnce = () => {
    if (closed.current) return;
    closed.current = true;
    drawnAtOnce(onClose);
  };
  return { ref, onCancel: closeOnce, onClose: closeOnce };
}
