/** The language of the computer: neither what a line means nor what is written into a file depends on it. See `line-rows.ts`. */
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { PullForm } from '../../../core/contract/archive-requests.ts';
import { NEWEST_FIRST } from '../../../core/contract/search-requests.ts';
import { fixed, profileOf } from '../../unit/drivers/profile-of.ts';
import { BY_HAND, RecorderProcess, SPECIMEN, scratch } from '../recorder-process.ts';
import { RECORDER_PROGRAM } from '../support/recorder-program.ts';

const FIRST_FORM = new URL('../../../fixtures/archives/form-1.gaugemark', import.meta.url);

/** With how each writes 1234.5; the engine brings its own tables, so none of them has to be installed. */
const LOCALES = [
  ['C', '1,234.5'],
  ['de_DE.UTF-8', '1.234,5'],
  ['ar_EG.UTF-8', '١٬٢٣٤٫٥'],
] as const;

/** "1,234" is 1.234 in one of them and no number in the other; the last line fits both. */
const LINES = '1,234;0,5\r\n1.234;0.5\r\n-0,020;1,5\r\n-0.020;1.5\r\n7;2\r\n';
const READ_AS = [
  ['.', [1.234, -0.02, 7]],
  [',', [1.234, -0.02, 7]],
] as const;
const FORMS: readonly (readonly [PullForm, string])[] = [
  ['plain', 'plain.csv'],
  ['decimal-comma-semicolon', 'comma.csv'],
  ['json', 'pull.json'],
];
/** All in a document that is of the moment and not of the pull. */
const MOMENT_OF_EXPORT = /^ *"exported": "[-+:.T\d]+",$/m;

const inLocale = (locale: string) => ({ LC_ALL: locale, LANG: locale });

/** What a recorder that was started in this locale reads, works out and writes. */
async function madeIn(locale: string, folder: string) {
  mkdirSync(folder);
  const archive = join(folder, 'a.gaugemark');
  copyFileSync(FIRST_FORM, archive);
  const recorder = await RecorderProcess.start(archive, RECORDER_PROGRAM, inLocale(locale));
  const written: string[] = [];
  for (const [form, name] of FORMS) {
    await recorder.ask('archive.export', { pullId: 1, to: join(folder, name), form });
    written.push(readFileSync(join(folder, name), 'latin1').replace(MOMENT_OF_EXPORT, ''));
  }
  const table = join(folder, 'table.csv');
  await recorder.ask('archive.export-results', { query: {}, order: NEWEST_FIRST, to: table, form: 'plain' });
  written.push(readFileSync(table, 'latin1'));
  const evaluation = await recorder.ask('pull.evaluate', { pullId: 1 });

  const file = join(folder, 'lines.bin');
  writeFileSync(file, LINES);
  const { specimenId } = await recorder.ask('specimen.save', { specimen: SPECIMEN });
  const read: (readonly [string, number[]])[] = [];
  for (const [decimalSign, values] of READ_AS) {
    const { pullId } = await recorder.ask('pull.ready', {
      specimenId,
      source: { kind: 'replay', file, pace: 'faster' },
      profile: profileOf({
        decimalSign,
        format: { kind: 'delimited', delimiter: ';', fields: ['load', 'extension'] },
        channels: [
          { field: 'load', quantity: 'force', unit: fixed('N') },
          { field: 'extension', quantity: 'extension', unit: fixed('mm') },
        ],
      }),
      ...BY_HAND,
    });
    await recorder.untilReadings(values.length);
    await recorder.ask('pull.close', {});
    read.push([decimalSign, await recorder.countsOf(pullId)]);
    await recorder.ask('readout.close', {});
  }
  return { written, evaluation, read };
}

it.each(LOCALES)('the engine takes the locale %s from the environment', (locale, number) => {
  const env = { ...process.env, ...inLocale(locale) };
  const { stdout } = spawnSync(process.execPath, ['-p', '(1234.5).toLocaleString()'], {
    env,
    encoding: 'utf8',
  });
  expect(stdout.trim()).toBe(number);
});

it('N4: lines mean by their declared decimal sign the same in every locale, and files are the same to the byte', async () => {
  const folder = scratch();
  const [first, ...others] = await Promise.all(
    LOCALES.map(([locale], i) => madeIn(locale, join(folder, String(i)))),
  );
  expect(first?.read).toEqual(READ_AS);
  expect(first?.written.every((text) => text.length > 200)).toBe(true);
  for (const other of others) expect(other).toEqual(first);
});
