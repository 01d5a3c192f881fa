/** Words in a picture of results of many pulls, for the command line and the English page. */
import { ENGLISH_INDIVIDUALS } from '../drawing/scatter-plot.ts';
import type { TrendWords } from './trend-plot.ts';

export const ENGLISH_TREND_WORDS: TrendWords = {
  ...ENGLISH_INDIVIDUALS,
  date: 'date',
  group: { heat: 'heat of the base metal', lot: 'lot of the filler', welder: 'welder' },
  notWritten: 'not written',
};
