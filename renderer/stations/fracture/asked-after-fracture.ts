/** Sizes after fracture that the sizes before don't allow: asked about, and not kept until somebody has answered. */
import { type Signal, signal } from '@preact/signals';
import {
  type FinalSize,
  type OutsideRange,
  outsideOf,
  rangeAfterFracture,
} from '../../../core/specimen/plausible-range.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import type { SpecimenFile } from '../../../core/specimen/specimen-file.ts';
import { withUnit } from '../../store/specimen-draft.ts';
import { units } from '../../store/view-settings.ts';
import type { Asking } from '../specimen/measure-list.tsx';

export class AskedAfterFracture {
  readonly #answered: Signal<ReadonlySet<string>> = signal(new Set());

  /** The question of one size, by the specimen as it was measured before the pull. */
  of(before: SpecimenFile, size: FinalSize): Asking {
    const read = readSpecimen(before);
    const range = read.ok ? rangeAfterFracture(read.specimen, size) : null;
    const key = (text: string): string => `${size} ${text}`;
    return {
      about: (entry): OutsideRange | null => {
        const outside = range === null ? null : outsideOf(range, withUnit(entry, 'length', units.value));
        return outside === null || this.#answered.value.has(key(outside.text)) ? null : outside;
      },
      isRight: ({ text }) => {
        this.#answered.value = new Set([...this.#answered.value, key(text)]);
      },
    };
  }
}
