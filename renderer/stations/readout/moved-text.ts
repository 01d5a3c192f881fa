/** How far a number has gone, written in the unit in which its readout shows it. */
import type { LiveValue } from '../../../core/contract/session.ts';
import { toNumber } from '../../../core/quantity/exact.ts';
import { unitFromText } from '../../../core/quantity/units.ts';
import { type Language, fixed } from '../../numbers/format.ts';

/** A readout without a digit to go by is written to thousandths. */
const FINENESS = 1e-3;
const PLACES_MAX = 8;

/**
 * `moved` as values of the page come: in the core's unit. A person compares it with the display of the frame: "2 lbf"
 * has moved by 4 lbf, not by 17.8 of something that is not named.
 */
export function movedText(
  moved: number,
  { shownText, coreUnit, resolution }: Pick<LiveValue, 'shownText' | 'coreUnit' | 'resolution'>,
  language: Language,
): string {
  const [, written = ''] = /[\d.,] ?(\S*)$/.exec(shownText) ?? [];
  const shown = unitFromText(written);
  const core = unitFromText(coreUnit);
  const known = shown !== null && core !== null && shown.symbol !== '1' && shown.dimension === core.dimension;
  const factor = known ? toNumber(core.toCore.div(shown.toCore)) : 1;
  const places = Math.ceil(-Math.log10((resolution ?? FINENESS) * factor) - 1e-9);
  const number = fixed(moved * factor, Math.min(PLACES_MAX, Math.max(0, places)), language);
  return known ? `${number} ${shown.symbol}` : number;
}
