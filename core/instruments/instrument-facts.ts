/** With what a pull was measured, as labelled lines for certificates and files. */
import { type PullInstruments, type UsedInstrument, concernSentence } from './pull-instruments.ts';
import { ENGLISH_PAPER, type PaperWords } from '../words/paper-words.ts';
import { KIND_WORDS } from './instrument.ts';

export interface InstrumentFact {
  readonly label: string;
  readonly value: string;
}

/** Nothing for pulls from before that was kept. */
export function instrumentFacts(
  its: PullInstruments | null,
  words: PaperWords = ENGLISH_PAPER,
): InstrumentFact[] {
  if (its === null) return [];
  const { text, said } = words;
  return [
    ...its.used.flatMap((used) => factsOf(used, words)),
    ...(its.factors === 'default'
      ? [
          {
            label: text('factors of the force'),
            value: text('scale 1 and offset 0 as they come, never set'),
          },
        ]
      : its.factors === 'simulated'
        ? [{ label: text('force'), value: text('simulated; nothing to calibrate') }]
        : []),
    ...its.concerns.map((one) => ({
      label: text(
        its.confirmed === 'person' ? 'known before the start' : 'noticed at the start, nobody was asked',
      ),
      value: said(concernSentence(one, its.used)),
    })),
  ];
}

function factsOf(used: UsedInstrument, words: PaperWords): InstrumentFact[] {
  const { text } = words;
  const kind = words.said(KIND_WORDS[used.kind]);
  return [
    {
      label: kind,
      value: [
        used.name,
        ...(used.serialNumber === null ? [] : [text('no. {1}', used.serialNumber)]),
        ...(used.class === null
          ? []
          : [used.classByWorksheet === true ? words.said(used.class) : used.class]),
      ].join(', '),
    },
    { label: text('calibration of the {1}', kind), value: calibrationWords(used, words) },
  ];
}

function calibrationWords(
  { state, certificateNumber, calibratedOn, dueOn }: UsedInstrument,
  { text }: PaperWords,
): string {
  if (state === 'none') return text('none on record at the time of the pull');
  const its = text(
    'certificate {1} of {2}, due {3}',
    certificateNumber ?? '',
    calibratedOn ?? '',
    dueOn ?? '',
  );
  return state === 'overdue' ? `${its}: ${text('OVERDUE at the time of the pull')}` : its;
}
