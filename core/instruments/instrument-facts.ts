/** With what a pull was measured, as labelled lines for certificates and files. */
import { type PullInstruments, type UsedInstrument, concernSentence } from './pull-instruments.ts';
import { KIND_WORDS } from './instrument.ts';

export interface InstrumentFact {
  readonly label: string;
  readonly value: string;
}

/** Nothing for pulls from before that was kept. */
export function instrumentFacts(its: PullInstruments | null): InstrumentFact[] {
  if (its === null) return [];
  return [
    ...its.used.flatMap(factsOf),
    ...(its.factors === 'default'
      ? [{ label: 'factors of the force', value: 'scale 1 and offset 0 as they come, never set' }]
      : its.factors === 'simulated'
        ? [{ label: 'force', value: 'simulated; nothing to calibrate' }]
        : []),
    ...its.concerns.map((one) => ({
      label: its.confirmed === 'person' ? 'known before the start' : 'noticed at the start, nobody was asked',
      value: concernSentence(one, its.used),
    })),
  ];
}

function factsOf(used: UsedInstrument): InstrumentFact[] {
  const kind = KIND_WORDS[used.kind];
  return [
    {
      label: kind,
      value: [
        used.name,
        ...(used.serialNumber === null ? [] : [`no. ${used.serialNumber}`]),
        ...(used.class === null ? [] : [used.class]),
      ].join(', '),
    },
    { label: `calibration of the ${kind}`, value: calibrationWords(used) },
  ];
}

function calibrationWords({ state, certificateNumber, calibratedOn, dueOn }: UsedInstrument): string {
  if (state === 'none') return 'none on record at the time of the pull';
  const words = `certificate ${certificateNumber ?? ''} of ${calibratedOn ?? ''}, due ${dueOn ?? ''}`;
  return state === 'overdue' ? `${words}: OVERDUE at the time of the pull` : words;
}
