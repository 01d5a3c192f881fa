/**
 * Codes of fields in words, for paper: a reader knows "not judged", not `not-judged`. A table for machines keeps the codes.
 * What is not here is a word already.
 */
import type { FOUND_VERDICTS } from '../contract/search-requests.ts';
import type { FRACTURE_PLACES } from '../contract/record.ts';
import type { PullSource } from '../contract/source.ts';
import type { ReadingsOrigin } from '../pull/readings-origin.ts';
import type { PaperText, PaperWords } from './paper-words.ts';

type Code =
  | (typeof FOUND_VERDICTS)[number]
  | (typeof FRACTURE_PLACES)[number]
  | ReadingsOrigin
  | PullSource['kind'];

const WORDS = {
  accept: 'accept',
  reject: 'reject',
  undecided: 'undecided',
  'not-judged': 'not judged',
  'weld-metal': 'weld metal',
  'fusion-line': 'fusion line',
  'heat-affected-zone': 'heat-affected zone',
  'base-metal': 'base metal',
  'outside-gauge-marks': 'outside the gauge marks',
  'in-grips': 'in the grips',
  'not-told': 'not known where',
  simulated: 'simulated',
  'imported-simulated': 'simulated, imported',
  replay: 'replayed',
  'imported-replay': 'replayed, imported',
  imported: 'imported',
  serial: 'serial port',
  tcp: 'TCP',
  'modbus-tcp': 'Modbus TCP',
  'modbus-rtu': 'Modbus RTU',
  typed: 'typed in',
} as const satisfies Readonly<Record<Code, PaperText>>;

/** Any other text as it is said. */
export function codeSaid(code: string, { text, said }: PaperWords): string {
  const words = Object.entries(WORDS).find(([known]) => known === code)?.[1];
  return words === undefined ? said(code) : text(words);
}
