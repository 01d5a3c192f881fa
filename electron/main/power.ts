/** Keeps computer and screen awake while readings are being kept. Lid and user lock are beyond it; the record names such a gap. */
import { powerSaveBlocker } from 'electron';

export class StayAwake {
  #id: number | null = null;

  set(wanted: boolean): void {
    if (wanted && this.#id === null) this.#id = powerSaveBlocker.start('prevent-display-sleep');
    if (!wanted && this.#id !== null) {
      powerSaveBlocker.stop(this.#id);
      this.#id = null;
    }
  }
}
