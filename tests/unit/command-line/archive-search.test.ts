/** `gaugemark archive search`: what is found, page by page, and as a table that another reader takes apart again. */
import { readFileSync, existsSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, it } from 'vitest';
import { folderOfFiles, ran } from './in-process.ts';

const file = folderOfFiles();
const archive = join(file('empty', ''), '..', 'pulls.gaugemark');

interface Answer {
  readonly pulls: readonly {
    readonly pullId: number;
    readonly specimenName: string;
    readonly strengthMpa: number;
  }[];
  readonly next: string | null;
}

async function typed(name: string, load: string, notes: string): Promise<void> {
  const specimen = file(
    `${name}.json`,
    JSON.stringify({ id: name, geometry: { kind: 'flat', width: '0.75 in', thickness: '0.25 in' }, notes }),
  );
  const { code, err } = await ran(
    'pull',
    '--typed',
    '--load',
    load,
    '--specimen',
    specimen,
    '--archive',
    archive,
    '--operator',
    'Okafor',
  );
  expect(err, name).not.toMatch(/fault|wrong/);
  expect(code).toBe(0);
}

const found = async (...args: string[]): Promise<Answer> => {
  const { code, out, err } = await ran('archive', 'search', ...args, '--archive', archive, '--json');
  expect(code, err).toBe(0);
  return JSON.parse(out) as Answer;
};

beforeAll(async () => {
  await typed('W-1', '11.0 kip', 'root side up');
  await typed('W-2', '12.5 kip', 'undercut at the toe');
  await typed('W-3', '13.0 kip', '=HYPERLINK("x")');
}, 120_000);

it('finds by a word of the notes, by strength in the unit typed, and page by page', async () => {
  expect((await found('undercut')).pulls.map((one) => one.specimenName)).toEqual(['W-2']);
  // 12.5 kip over 0.1875 in² is 66.7 ksi.
  const strong = await found('--strength-min', '66.6 ksi', '--strength-max', '66.7 ksi');
  expect(strong.pulls.map((one) => one.specimenName)).toEqual(['W-2']);
  const first = await found('okafor', '--limit', '2');
  expect(first.pulls.map((one) => one.specimenName)).toEqual(['W-3', 'W-2']);
  const second = await found('okafor', '--limit', '2', '--after', first.next ?? '');
  expect(second.pulls.map((one) => one.specimenName)).toEqual(['W-1']);
  expect(second.next).toBeNull();
  const weakest = await found('--sort', 'strength', '--ascending', '--limit', '1');
  expect(weakest.pulls.map((one) => one.specimenName)).toEqual(['W-1']);
  // Several words need no quotes; each narrows what is found.
  const both = await found('okafor', 'undercut', '--limit', '5');
  expect(both.pulls.map((one) => one.specimenName)).toEqual(['W-2']);
});

it('says in one sentence which filter is wrong', async () => {
  for (const [args, sentence] of [
    [['--from', '2026-02-30'], /--from is no date/],
    [['--strength-min', 'sixty'], /--strength-min/],
    [['--geometry', 'oval'], /--geometry "oval"/],
    [['--after', 'nowhere'], /key/],
    [['--csv', 'a', '--xlsx', 'b'], /--csv, --xlsx or --pdf/],
  ] as const) {
    const { code, err } = await ran('archive', 'search', ...args, '--archive', archive);
    expect(err).toMatch(sentence);
    expect(code, err).toBe(2);
  }
});

it('writes all that is found as a table, no cell of which is a formula, and never over a file', async () => {
  const to = join(archive, '..', 'results.csv');
  const { code, err } = await ran('archive', 'search', '--archive', archive, '--csv', to);
  expect(code, err).toBe(0);
  const text = readFileSync(to, 'utf8');
  expect(text.split('\r\n')).toHaveLength(5);
  expect(text).toMatch(/^pull,specimen,/);
  expect(text).not.toMatch(/(^|[,;\t\n])=/);
  expect((await ran('archive', 'search', '--archive', archive, '--csv', to)).code).toBe(2);
  const workbook = join(archive, '..', 'results.xlsx');
  expect((await ran('archive', 'search', '--archive', archive, '--xlsx', workbook)).code).toBe(0);
  expect(existsSync(workbook)).toBe(true);
});

it('narrows the list by the same filters', async () => {
  const { out } = await ran('archive', 'list', '--archive', archive, '--strength-max', '60 ksi', '--json');
  const { pulls } = JSON.parse(out) as Answer;
  expect(pulls.map((one) => one.specimenName)).toEqual(['W-1']);
});

it('finds where it broke by the word it was noted with, by the word that was kept, and says which words there are', async () => {
  const noted = await ran(
    'archive',
    'note-fracture',
    '--pull',
    '1',
    '--broke',
    'grips',
    '--archive',
    archive,
  );
  expect(noted.code, noted.err).toBe(0);
  for (const word of ['grips', 'in-grips', 'Grip'])
    expect(
      (await found('--broke', word)).pulls.map((one) => one.specimenName),
      word,
    ).toEqual(['W-1']);
  expect((await found('--broke', 'HAZ')).pulls).toEqual([]);
  const unknown = await ran('archive', 'search', '--broke', 'elbow', '--archive', archive);
  expect([unknown.code, unknown.err]).toEqual([
    2,
    expect.stringMatching(/"elbow".*use one of .*outside-gauge, grips/),
  ]);
});
