/**
 * What a pull must survive of the serial line and of the meaning of its numbers, row by row, and the tests that provoke
 * it. `tests/unit/setup/line-rows.test.ts` looks that every test is there and names its row.
 */
import type { FaultRow } from './rows.ts';

type Provoked = FaultRow['provokedBy'];

const SERIAL = 'app/drivers-serial.test.ts';
const FAULTS = 'unit/drivers/serial-faults.test.ts';
const ASSEMBLER = 'unit/drivers/line-assembler.test.ts';
const PARSER = 'unit/drivers/line-parser.test.ts';
const IDENTITY = 'unit/drivers/port-identity.test.ts';
const RECORDER = 'app/recorder-line-faults.test.ts';
const LINE = 'app/faults/line-faults.test.ts';
const ARRIVING = 'app/faults/arriving-lines.test.ts';

export const LINE_ROWS: Readonly<Record<string, Provoked>> = {
  S1: [
    [SERIAL, '(S1)'],
    [RECORDER, 'the gap is named, the torn line is kept raw'],
  ],
  S2: [
    [SERIAL, '(S2)'],
    [RECORDER, 'its last value is shown no longer'],
    [LINE, 'S2: the computer sleeps in mid-pull'],
  ],
  S3: [
    [LINE, 'S3: a handler of the port throws in mid-pull'],
    ['app/recorder-killed.test.ts', 'loses at most one reading that it had read'],
  ],
  S4: [
    [SERIAL, 'S4'],
    [IDENTITY, 'S4'],
    [LINE, 'S4, S5: unplugged in mid-pull'],
  ],
  S5: [
    [IDENTITY, 'S5'],
    [LINE, 'S4, S5: unplugged in mid-pull'],
  ],
  S6: [
    [ASSEMBLER, 'S6'],
    [PARSER, 'S6'],
    [RECORDER, 'joined to nothing (S1, S6)'],
  ],
  S7: [
    [PARSER, 'S7'],
    [ARRIVING, 'S7: a readout that was sending before the program began'],
  ],
  S8: [[SERIAL, '(S8)']],
  S9: [
    [SERIAL, '(S9)'],
    ['unit/recorder/from-the-first-byte.test.ts', 'opens a port that is listened to once'],
  ],
  S10: [[SERIAL, '(S10)']],
  S11: [
    [SERIAL, '(S11)'],
    [SERIAL, 'for somebody outside its group'],
    [FAULTS, 'S11'],
  ],
  S12: [
    [SERIAL, 'S12'],
    [FAULTS, 'S12'],
  ],
  S13: [
    [ASSEMBLER, 'S13'],
    [RECORDER, 'no line ever ends'],
  ],
  S14: [[ASSEMBLER, 'S14']],
  S15: [
    [SERIAL, 'S15'],
    [ASSEMBLER, 'S15'],
  ],
  S16: [[FAULTS, 'S16']],
  S17: [
    ['unit/drivers/learn-lines.test.ts', '(S17)'],
    ['unit/drivers/wrong-speed.test.ts', 'at another of the usual speeds'],
    ['unit/drivers/wrong-speed.test.ts', 'most of which are damaged'],
  ],
  S18: [
    [PARSER, 'S18'],
    [RECORDER, 'every core in a loop while a fast readout sends'],
  ],
  S19: [
    [PARSER, 'S19'],
    [ARRIVING, 'S19: three lines at once, then nothing for 16 ms'],
  ],
  N1: [
    [PARSER, 'N1'],
    ['unit/pull/channel-value.test.ts', '(N1)'],
  ],
  N2: [[PARSER, 'N2']],
  N3: [['unit/drivers/number-grammar.test.ts', 'N3']],
  N4: [
    ['unit/drivers/number-grammar.test.ts', 'N4'],
    [
      'app/faults/other-locales.test.ts',
      'N4: lines mean by their declared decimal sign the same in every locale',
    ],
  ],
  N5: [
    [PARSER, 'N5'],
    [RECORDER, '(N5)'],
  ],
  N6: [
    [PARSER, 'N6'],
    ['unit/archive/keeping.test.ts', '(N6)'],
  ],
  N7: [[LINE, 'N7: the wall clock is set back by an hour']],
  N8: [
    [ARRIVING, 'N8: the reading that crosses the threshold comes in two chunks'],
    ['unit/pull/take-reading.test.ts', 'can stand on the very first reading of the record (N8)'],
    [
      'unit/pull/take-reading.test.ts',
      'can be undone, and the same drop is not marked again until the force has come back (N8)',
    ],
    [
      'app/recorder-full-pull.test.ts',
      'long after its tail: both breaks are marked, the later and its peak count (N8)',
    ],
  ],
  N9: [
    [
      'unit/exchange/pull-csv.test.ts',
      'keeps the digits that were shown, and leaves blank what was not there (N9)',
    ],
  ],
  N10: [
    ['unit/shell/settings.test.ts', 'is set aside and named, and what was kept before counts (N10)'],
    [
      'unit/instruments/instruments.test.ts',
      'factors that nobody has touched are told, unless a scale is set or the force is calibrated (N10)',
    ],
  ],
};

/** What of a row no test here shows, see `FaultRow`. */
export const LINE_NOT_PROVOKED: Readonly<Record<string, NonNullable<FaultRow['notProvoked']>>> = {
  S2: {
    what: 'the event by which a system tells that it is awake again: nothing waits for one, main listens to `shutdown` alone',
    instead:
      'the tests of S2 step the clocks as sleep does, or stop the sender; both are noticed without any event',
  },
  S17: {
    what: 'that clean numbers ten times off are seen: nothing in such lines differs from right ones',
    instead:
      'no proposal is kept by itself: a person keeps it, asked before to press on the frame and look which number moves, and by how much',
  },
};
