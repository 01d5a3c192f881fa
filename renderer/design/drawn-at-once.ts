/** Changes the page and draws it before the next key can come: a key pressed while a frame is waited for would be lost. */
import { batch } from '@preact/signals';
import { options } from 'preact';

/** After it the elements of what changed are there, to be focused or pressed. */
export function drawnAtOnce(change: () => void): void {
  // Called within itself, the outer one draws.
  if (options.debounceRendering !== undefined) {
    change();
    return;
  }
  options.debounceRendering = (draw) => draw();
  try {
    batch(change);
  } finally {
    delete options.debounceRendering;
  }
}
