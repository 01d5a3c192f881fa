/** The digits that a readout showed, reading by reading, as text: all of them, however long the number is. */
import type { ChannelColumns } from '../../contract/reading.ts';
import { shownNumber } from '../../pull/decimal-text.ts';

/** Null where no number was shown. */
export type ShownTexts = readonly (string | null)[];

/** Empty where the columns were read without what was shown. */
export function shownTextsOf(shown: ChannelColumns['shown']): ShownTexts {
  if (shown === undefined) return [];
  const texts = Array.from(shown.mantissa, (mantissa, i) =>
    shownNumber({ mantissa: Number.isNaN(mantissa) ? null : mantissa, exponent: shown.exponent[i] ?? 0 }),
  );
  for (const { at, text } of shown.exact ?? []) texts[at] = text;
  return texts;
}
