/** What a person must know of the calibration before the start, in the words of the page. */
import type {
  Concern,
  InstrumentsBeforeStart,
  UsedInstrument,
} from '../../core/instruments/pull-instruments.ts';
import type { Words } from '../words/en.ts';

/** `hasButton`: what sets scale and offset stands beside it, so that no place has to be named. */
export function concernWords(
  { code, instrumentId }: Concern,
  used: readonly UsedInstrument[],
  words: Words,
  hasButton = false,
): string {
  const { concerns, kinds } = words.instruments;
  const found = used.find((one) => one.instrumentId === instrumentId);
  const what = found === undefined ? '' : `${kinds[found.kind]} ${found.name}`;
  switch (code) {
    case 'calibration-overdue':
      return concerns.overdue(what, found?.dueOn ?? '', found?.certificateNumber ?? '');
    case 'no-calibration':
      return concerns.none(what);
    case 'force-instrument-not-named':
      return concerns.forceNotNamed;
    case 'default-factors':
      return concerns.defaultFactors(hasButton ? '' : concerns.setAtReadout);
  }
}

export const allConcernWords = ({ concerns, used }: InstrumentsBeforeStart, words: Words): string[] =>
  concerns.map((one) => concernWords(one, used, words));
