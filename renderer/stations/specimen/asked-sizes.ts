/** Sizes outside of what is made are asked about; an answer counts for this very value of this very field. */
import { signal } from '@preact/signals';
import { type OutsideRange, outsideRange } from '../../../core/specimen/plausible-range.ts';
import { DIMENSIONS_OF_KIND, draft, entriesOf, withUnit } from '../../store/specimen-draft.ts';
import { units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';

const answered = signal<ReadonlySet<string>>(new Set());
const key = (field: string, text: string): string => `${draft.value.kind} ${field} ${text}`;

/** The question about what stands in a field; null where there is none or it was answered. */
function askedAbout(field: string, entry: string): OutsideRange | null {
  const outside = outsideRange(draft.value.kind, field, withUnit(entry, 'length', units.value));
  return outside === null || answered.value.has(key(field, outside.text)) ? null : outside;
}

function sizeIsRight(field: string, { text }: OutsideRange): void {
  answered.value = new Set([...answered.value, key(field, text)]);
}

/** The question of a size of the draft. */
export const askingOf = (field: string) => ({
  about: (entry: string) => askedAbout(field, entry),
  isRight: (asked: OutsideRange) => sizeIsRight(field, asked),
});

/** Fields whose question has not been answered, with the sentence. */
export function unansweredSizes(): Map<string, string> {
  const open = new Map<string, string>();
  for (const field of [...DIMENSIONS_OF_KIND[draft.value.kind], 'gaugeLength'] as const) {
    const asked = entriesOf(field).flatMap((entry) => askedAbout(field, entry) ?? [])[0];
    if (asked !== undefined)
      open.set(
        field === 'gaugeLength' ? field : `geometry.${field}`,
        words.value.calliper.ask(asked.text, asked.usual),
      );
  }
  return open;
}
