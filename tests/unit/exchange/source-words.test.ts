/** The line of an exported file that says where its readings come from, written and read back. */
import { describe, expect, it } from 'vitest';
import { readingsSaidIn, sourceWords } from '../../../core/exchange/source-words.ts';
import type { ImportPlan } from '../../../core/exchange/import/import-plan.ts';

const simulated = sourceWords({ kind: 'simulated', scenario: 'mild-steel' });
const replay = sourceWords({ kind: 'replay', file: '/data/a, b.bin' });
const plan: ImportPlan = {
  schema: 'gaugemark.import-plan/1',
  encoding: 'utf-8',
  delimiter: ',',
  decimalSign: '.',
  firstRowLine: 2,
  cells: 1,
  columns: [{ cell: 0, name: 'force_N', quantity: 'force', unit: 'N', written: 'decimal' }],
};
const imported = (file: string, readings?: 'simulated' | 'replay'): string =>
  sourceWords({ kind: 'imported', file, plan, ...(readings === undefined ? {} : { readings }) });

describe('what a file says of its readings', () => {
  it.each([
    ['simulated', simulated, 'simulated'],
    ['replayed', replay, 'replay'],
    ['imported from a file of simulated ones', imported('a.csv', 'simulated'), 'simulated'],
    ['imported from a file of replayed ones', imported('a.csv', 'replay'), 'replay'],
    ['imported', imported('a.csv'), null],
    ['imported from a file with a misleading name', imported('simulated frame, scenario x.csv'), null],
    ['recorded from a port', sourceWords({ kind: 'serial', path: '/dev/ttyUSB0' }), null],
  ])('%s', (_name, words, said) => {
    expect(readingsSaidIn(['# gaugemark pull csv 1', `# source: ${words}`, 'force_N'])).toBe(said);
  });

  it('is read as a spreadsheet program saves it again: quoted, with empty cells behind', () => {
    expect(readingsSaidIn([`\uFEFF"# source: ${simulated}";;;`])).toBe('simulated');
    expect(readingsSaidIn([`# source: ${simulated},,,`])).toBe('simulated');
    expect(readingsSaidIn([`"# source: ${imported('a.csv', 'replay')}",,`])).toBe('replay');
  });

  it('is not taken from a note, and is of the second instrument as of the first', () => {
    expect(readingsSaidIn([`# note: source: ${simulated}`])).toBeNull();
    expect(readingsSaidIn(['# source: serial port COM3', `# second instrument: ${simulated}`])).toBe(
      'simulated',
    );
  });
});
