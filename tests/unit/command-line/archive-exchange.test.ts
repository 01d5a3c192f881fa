/** Readings and archives from elsewhere: imported, merged, backed up and put back, with nothing lost on the way. */
import { createHash } from 'node:crypto';
import { copyFileSync, existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import type { CertificateContent } from '../../../core/certificate/certificate-content.ts';
import { sourceWords } from '../../../core/exchange/source-words.ts';
import { notedBackup, usualNotesFolder } from '../../../electron/exports/noted-backup.ts';
import { reparse } from '../../../electron/recorder/reparse.ts';
import { folderOfFiles, ran } from './in-process.ts';

const SPECIMEN = { id: 'IMP-1', geometry: { kind: 'round', diameter: '10.00 mm' }, gaugeLength: '50 mm' };

/** An elastic rise, a plateau and a fall, in the words of a file from elsewhere. */
function curveText(row: (timeS: number, forceKn: number, extensionMm: number) => string): string {
  const rows: string[] = [];
  for (let i = 0; i <= 400; i++) {
    const extension = i / 200;
    const force = i > 395 ? 5 : Math.min(31.416, 100 * extension) + extension / 4;
    rows.push(row(i / 10, force, extension));
  }
  return rows.join('\n');
}
const PLAIN = `time_s,force_kN,extension_mm\n${curveText((t, f, e) => `${t.toFixed(1)},${f.toFixed(4)},${e.toFixed(4)}`)}\n`;

interface Shown {
  readonly pull: { readonly pullId: number };
  readonly results: Readonly<Record<string, { readonly value: number }>>;
  readonly notes?: readonly string[];
}

function place(): { file: ReturnType<typeof folderOfFiles>; archive: string; specimen: string } {
  const file = folderOfFiles();
  const specimen = file('specimen.json', JSON.stringify(SPECIMEN));
  return { file, specimen, archive: join(dirname(specimen), 'pulls.gaugemark') };
}

const asked = async (...args: string[]): Promise<Shown> => {
  const { code, out, err } = await ran('archive', ...args, '--json');
  expect(code, err).toBe(0);
  return JSON.parse(out) as Shown;
};
const opened = <T>(path: string, work: (archive: Archive) => T): T => {
  const archive = new Archive(path, { programVersion: 'test', wallMs: Date.now, purpose: 'read' });
  try {
    return work(archive);
  } finally {
    archive.close();
  }
};
const resultOf = ({ results }: Shown, symbol: string): number => results[symbol]?.value ?? Number.NaN;

describe('import of a file', () => {
  it('gives the results that the file itself gives, keeps its bytes, and is read the same again', async () => {
    const { file, archive, specimen } = place();
    const path = file('curve.csv', PLAIN);
    const shown = await asked('import', path, '--archive', archive, '--specimen', specimen);
    const direct = JSON.parse((await ran('evaluate', path, '--specimen', specimen, '--json')).out) as Shown;
    expect(resultOf(shown, 'Rm')).toBe(resultOf(direct, 'Rm'));
    expect(resultOf(shown, 'Rp0.2')).toBe(resultOf(direct, 'Rp0.2'));
    opened(archive, (kept) => {
      const bytes = Buffer.concat([...kept.rawChunks(shown.pull.pullId)].map((chunk) => chunk.bytes));
      expect(bytes.equals(readFileSync(path))).toBe(true);
      const check = kept.check({ reparse });
      expect(check.lines.filter((line) => !line.ok)).toEqual([]);
      expect(check.lines.map((line) => line.words).join('\n')).toMatch(
        /raw bytes give the same 401 readings again/,
      );
      expect(kept.getPull(shown.pull.pullId).source).toMatchObject({ kind: 'imported', file: 'curve.csv' });
    });
    const again = await ran('archive', 'import', path, '--archive', archive, '--specimen', specimen);
    expect(again.code).toBe(2);
    expect(again.err).toMatch(/in this archive already, as pull 1/);
  });

  it('keeps a file of which nobody says what was pulled: its largest force, and no strength', async () => {
    const { file, archive } = place();
    const path = file('from a memory stick.csv', PLAIN);
    const shown = await asked('import', path, '--archive', archive);
    expect(shown).toMatchObject({ pull: { pullId: 1, specimenName: 'from a memory stick' } });
    const forcesKn = PLAIN.trim()
      .split('\n')
      .slice(1)
      .map((row) => Number(row.split(',')[1]));
    expect(resultOf(shown, 'Fm') / 1000).toBeCloseTo(Math.max(...forcesKn), 9);
    expect(Object.keys(shown.results)).not.toContain('Rm');
    expect((await ran('archive', 'show', '1', '--archive', archive)).out).toContain(
      'The section was not measured',
    );
    opened(archive, (kept) => {
      expect(kept.check({ reparse }).lines.filter((line) => !line.ok)).toEqual([]);
    });
  });

  it('is marked as imported beside its name, on the certificate and beside its verdict', async () => {
    const { file, archive, specimen } = place();
    const path = file('of elsewhere.csv', PLAIN);
    await asked('import', path, '--archive', archive, '--specimen', specimen);
    expect((await ran('archive', 'list', '--archive', archive)).out).toMatch(/IMP-1.*IMPORTED/);
    // Nothing tells when or for how long the frame pulled: the one moment known is that of the import.
    const { out: shown } = await ran('archive', 'show', '1', '--archive', archive);
    expect(shown).toMatch(
      /^Pull 1 of specimen IMP-1, taken over .* by the wall clock: \d+ readings, ended$/m,
    );
    const out = join(dirname(archive), 'certificate.json');
    const issued = await ran('certificate', '--pull', '1', '--archive', archive, '--out', out);
    expect([issued.code, issued.out]).toEqual([0, expect.stringContaining('IMPORTED readings: taken over')]);
    const content = JSON.parse(readFileSync(out, 'utf8')) as CertificateContent;
    expect(content.notices).toEqual([
      expect.stringMatching(/^IMPORTED readings: .*not recorded by this program/),
    ]);
    expect(content.noticeMark).toBe('IMPORTED');
    expect(content.specimens[0]?.record).toContainEqual({
      label: 'kind of record',
      value: 'IMPORTED: taken over from the file of elsewhere.csv',
    });
  });

  it('has the day that is stated of it in every place; without one a date of the file is told and not taken', async () => {
    const { file, archive, specimen } = place();
    const path = file('of 2019.csv', `# tested: 14.05.2019\n${PLAIN}`);
    const args = ['import', path, '--archive', archive, '--specimen', specimen];
    for (const [day, why] of [
      ['2019-02-29', /is no day; write it like 2019-05-14/],
      ['1831-05-14', /is before 1900/],
      ['2999-01-01', /lies ahead/],
    ] as const) {
      const refused = await ran('archive', ...args, '--pulled-on', day);
      expect([refused.code, refused.err]).toEqual([2, expect.stringMatching(why)]);
      expect(existsSync(archive)).toBe(false);
    }
    const shown = await asked(...args, '--pulled-on', '2019-05-14 10:30', '--operator', 'Quintero');
    expect(shown).toMatchObject({ pull: { pulledOn: '2019-05-14T10:30', statedDays: [{ by: 'Quintero' }] } });
    expect(shown.notes ?? []).toEqual([]);
    const text = async (...asks: string[]): Promise<string> =>
      (await ran('archive', ...asks, '--archive', archive)).out;
    expect(await text('list')).toMatch(/2019-05-14 10:30 stated {2}IMP-1/);
    expect(await text('show', '1')).toMatch(/pulled on 2019-05-14 10:30 \(stated at import\), taken over /);
    expect(await text('search', '--from', '2019-05-14', '--to', '2019-05-14')).toMatch(
      /2019-05-14 10:30 stated/,
    );
    expect(await text('search', '--from', '2026-01-01')).not.toContain('IMP-1');
    const out = join(dirname(archive), 'certificate.json');
    await ran('certificate', '--pull', '1', '--archive', archive, '--out', out);
    const content = JSON.parse(readFileSync(out, 'utf8')) as CertificateContent;
    const record = content.specimens[0]?.record ?? [];
    expect(record).toContainEqual({ label: 'pulled on', value: '2019-05-14 10:30 (stated at import)' });
    expect(record.map(({ label }) => label)).not.toContain('started');
    const csv = join(dirname(archive), 'again.csv');
    await text('export', '1', '--out', csv);
    expect(readFileSync(csv, 'utf8')).toMatch(/^# pulled on: 2019-05-14 10:30 \(stated at import\)$/m);

    const other = file('undated.csv', `# tested: 14.05.2019\n# other\n${PLAIN}`);
    const undated = await asked('import', other, '--archive', archive, '--specimen', specimen);
    expect(undated.notes).toContainEqual(
      expect.stringMatching(/line 1 of the file has a date.*: 2019-05-14\. If/),
    );
    expect(undated).toMatchObject({ pull: { pulledOn: null } });
    const say = ['state-day', '--pull', '2', '--pulled-on'];
    expect(await text(...say, '2018-05-14', '--operator', 'Abel')).toContain('(stated later by Abel)');
    expect((await ran('archive', ...say, '2017-05-14', '--archive', archive)).err).toMatch(
      /needs its reason/,
    );
    expect(await text(...say, '2017-05-14', '--reason', 'misread')).toContain('2017-05-14 (stated later)');
    expect((await ran('archive', 'check', '--archive', archive)).code).toBe(0);
  });

  it('carries on the word of a simulated pull that was exported, also when it is exported and imported again', async () => {
    const { file, archive, specimen } = place();
    const exported = (source: string): string =>
      PLAIN.replace(/^/, `# gaugemark pull csv 1; recorded by Gaugemark 0.1.0\n# source: ${source}\n`);
    const first = file('simulated.csv', exported(sourceWords({ kind: 'simulated', scenario: 'mild-steel' })));
    const evaluated = await ran('evaluate', first, '--specimen', specimen);
    expect(evaluated.out).toMatch(/^SIMULATED \(imported\) readings: .* no specimen was pulled/);
    expect(JSON.parse((await ran('evaluate', first, '--specimen', specimen, '--json')).out)).toMatchObject({
      curve: { origin: 'imported-simulated' },
    });
    await asked('import', first, '--archive', archive, '--specimen', specimen);
    opened(archive, (kept) => {
      expect(kept.getPull(1)).toMatchObject({
        readings: 'imported-simulated',
        source: { kind: 'imported', file: 'simulated.csv', readings: 'simulated' },
      });
    });
    expect((await ran('archive', 'list', '--archive', archive)).out).toMatch(/IMP-1.*SIMULATED \(imported\)/);
    expect((await ran('archive', 'search', 'IMP-1', '--archive', archive)).out).toMatch(
      /SIMULATED \(imported\)/,
    );
    const again = join(dirname(archive), 'again.csv');
    await ran('archive', 'export', '1', '--out', again, '--archive', archive);
    const second = join(dirname(archive), 'second.gaugemark');
    await asked('import', again, '--archive', second, '--specimen', specimen);
    expect((await ran('archive', 'show', '1', '--archive', second)).out).toMatch(
      /^SIMULATED \(imported\) readings: .* no specimen was pulled/,
    );
    const out = join(dirname(archive), 'certificate.json');
    expect((await ran('certificate', '--pull', '1', '--archive', second, '--out', out)).code).toBe(0);
    const content = JSON.parse(readFileSync(out, 'utf8')) as CertificateContent;
    expect(content.noticeMark).toBe('SIMULATED (imported)');
  });

  it('takes decimal commas, other units and columns that are named by hand', async () => {
    const { file, archive, specimen } = place();
    const comma = (x: number, places: number): string => x.toFixed(places).replace('.', ',');
    const path = file(
      'export.txt',
      `Prüfung 7\n\na;b;c;d\n${curveText((t, f, e) => `${comma(t, 1)};x;${comma(f * 1000, 1)};${comma(e, 4)}`)}\n`,
    );
    const shown = await asked(
      'import',
      path,
      '--archive',
      archive,
      '--specimen',
      specimen,
      '--columns',
      'time_s;-;force_N;extension_mm',
    );
    // The largest of 31.416 kN and a quarter of the extension, over 78.54 mm².
    expect(resultOf(shown, 'Rm')).toBeCloseTo(((31.416 + 1.975 / 4) * 1000) / (Math.PI * 25), 0);
  });

  it('asks for the decimal sign by its flag and takes it, tells what was left out, in the document too', async () => {
    const { file, archive, specimen } = place();
    const rows = Array.from({ length: 30 }, (_, i) => `${String(i)};${String(i % 9)},${String(100 + i)};7`);
    const path = file('thousands.csv', `${rows.map((row) => row.replace(';0,', ';1,')).join('\n')}\n`);
    const importing = [
      'import',
      path,
      '--archive',
      archive,
      '--specimen',
      specimen,
      '--columns',
      'time_s;force_N',
    ];
    const refused = await ran('archive', ...importing);
    expect(refused.code).toBe(2);
    expect(refused.err).toMatch(
      /"1,234" can be one thousand .*\. It is said with --decimal-sign \. or --decimal-sign ,$/m,
    );
    expect((await ran('archive', ...importing, '--decimal-sign', ';')).err).toMatch(
      /--decimal-sign ";" is not known/,
    );
    expect((await ran('archive', ...importing, '--delimiter', ':')).err).toMatch(
      /use one of ,, ;, tab, \|, blanks/,
    );
    expect((await ran('archive', ...importing, '--encoding', 'ebcdic')).err).toMatch(/use one of utf-8/);
    const shown = await asked(...importing, '--decimal-sign', ',', '--delimiter', ';', '--encoding', 'utf-8');
    // 8,126 with a decimal comma, not 8126.
    expect(resultOf(shown, 'Fm')).toBe(8.126);
    expect(shown.notes).toEqual(['Column 3 was not named and is left out.']);
    const tabs = file('tabs.txt', PLAIN.replaceAll(',', '\t'));
    const again = await asked(
      'import',
      tabs,
      '--archive',
      archive,
      '--specimen',
      specimen,
      '--delimiter',
      'tab',
    );
    expect(again.notes).toEqual(['IMP-1 has a pull already: number 1']);
  });

  const bad: readonly (readonly [string, string | Uint8Array, RegExp, ...string[]])[] = [
    ['an empty file', '', /empty/],
    [
      'a spreadsheet renamed',
      new Uint8Array([0x50, 0x4b, 3, 4, 20, 0, 6, 0, 8, 0]),
      /spreadsheet|workbook|zip/i,
    ],
    [
      'a spreadsheet of the old kind renamed',
      new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, ...new Array<number>(600).fill(0)]),
      /spreadsheet|binary|text/i,
    ],
    ['300 columns of numbers', `${Array(300).fill('1').join(',')}\n`.repeat(30), /columns|cells/],
    [
      '300 columns, none numeric',
      `${Array(300).fill('name').join(',')}\n${Array(300).fill('word').join(',')}\n`,
      /^300-columns--none-numeric\.csv: No line of the first 2 holds a row of numbers; give a table of readings, or say where its rows begin\.$/,
    ],
    [
      'decimal comma with comma delimiter',
      'time_s,force_kN\n0,0,0,0\n0,1,1,5\n0,2,2,5\n',
      /comma|cells|column/i,
    ],
    [
      'decimal comma with comma delimiter and no names',
      '0,00,0,21,0,11,0,52\n0,10,1,25,0,20,0,61\n',
      /commas stand between the cells .*8 cells, no decimal point, and 4 columns named/,
      '--columns',
      'time_s;force_kN;travel_mm;extension_mm',
    ],
    [
      'a header in the middle',
      `time_s,force_kN\n0,0\n1,1\n2,2\nextension_mm,stress_MPa\n0,0\n1,5\n`,
      /Line 5|another table/,
    ],
    ['mixed units', 'time_s,force\n0,1 kN\n1,2 N\n2,3 kN\n3,4 N\n', /unit|kN|column/],
  ];
  it('says of each bad file in one sentence what is wrong, and keeps nothing', async () => {
    const { file, archive, specimen } = place();
    for (const [what, content, sentence, ...flags] of bad) {
      const path = file(`${what.replace(/\W/g, '-')}.csv`, content);
      const { code, err } = await ran(
        'archive',
        'import',
        path,
        '--archive',
        archive,
        '--specimen',
        specimen,
        ...flags,
      );
      expect(err, what).toMatch(sentence);
      expect(err.trim().split('\n'), what).toHaveLength(1);
      expect(code, `${what}: ${err}`).toBe(2);
      expect(existsSync(archive), `${what}: an archive was begun for nothing`).toBe(false);
    }
    const utf16 = file('utf16.csv', Buffer.from(`\ufeff${PLAIN}`, 'utf16le'));
    await asked('import', utf16, '--archive', archive, '--specimen', specimen);
    opened(archive, (kept) => {
      expect(kept.info().pullCount).toBe(1);
      expect(kept.info().specimenCount).toBe(1);
    });
  });
});

describe('merge of two archives', () => {
  it('tells first, takes everything that was said, knows it again, and lists what is in conflict', async () => {
    const { file, archive, specimen } = place();
    const other = join(dirname(archive), 'other.gaugemark');
    await asked('import', file('a.csv', PLAIN), '--archive', archive, '--specimen', specimen);
    await asked(
      'import',
      file('b.csv', `${PLAIN}# another file\n`),
      '--archive',
      other,
      '--specimen',
      specimen,
    );
    await ran('archive', 'note-fracture', '--pull', '1', '--archive', other, '--broke', 'base-metal');
    // The same bytes at another moment: nobody but a person can say which of both counts.
    await asked('import', file('c.csv', PLAIN), '--archive', other, '--specimen', specimen);

    const hash = createHash('sha256').update(readFileSync(archive)).digest('hex');
    const told = await ran('archive', 'merge', other, '--archive', archive, '--json');
    expect(JSON.parse(told.out)).toMatchObject({ taken: 1, hereAlready: 0, conflicts: 1, written: false });
    expect(createHash('sha256').update(readFileSync(archive)).digest('hex')).toBe(hash);

    const done = await ran('archive', 'merge', other, '--archive', archive, '--yes', '--json');
    expect(JSON.parse(done.out)).toMatchObject({ taken: 1, conflicts: 1, written: true });
    expect(done.code).toBe(1);
    const again = await ran('archive', 'merge', other, '--archive', archive, '--yes', '--json');
    expect(JSON.parse(again.out)).toMatchObject({ taken: 0, hereAlready: 1, conflicts: 1 });

    const [here, there] = [archive, other].map((path, i) =>
      opened(path, (kept) => {
        expect(kept.check({ reparse }).lines.filter((line) => !line.ok)).toEqual([]);
        return { pull: kept.getPull(i === 0 ? 2 : 1), curve: kept.curve(i === 0 ? 2 : 1).curve };
      }),
    );
    expect(here?.curve).toEqual(there?.curve);
    expect(here?.pull.fractureNotes).toEqual(there?.pull.fractureNotes);
    expect(here?.pull.startedWallMs).toBe(there?.pull.startedWallMs);
    const { out } = await ran('archive', 'search', '--broke', 'base-metal', '--archive', archive, '--json');
    expect((JSON.parse(out) as { pulls: { pullId: number }[] }).pulls.map((one) => one.pullId)).toEqual([2]);
  });
});

describe('backups', () => {
  it('are kept by age, put back only when asked, and never by a damaged file (D6)', async () => {
    const { file, archive, specimen } = place();
    await asked('import', file('a.csv', PLAIN), '--archive', archive, '--specimen', specimen);
    const folder = join(dirname(archive), 'backups');
    mkdirSync(folder);
    const sound = join(dirname(archive), 'sound.gaugemark');
    await ran('archive', 'backup', '--archive', archive, '--out', sound);
    // Where it went is noted for the window, which reminds of backups.
    expect(notedBackup(usualNotesFolder(), archive)?.path).toBe(sound);
    for (const old of ['2020-01-01T08-00-00Z', '2020-01-01T09-00-00Z', '2020-02-01T09-00-00Z'])
      copyFileSync(sound, join(folder, `pulls-${old}.gaugemark`));
    // Newer than a good one of their day: cut short, and with pages written over.
    const whole = readFileSync(sound);
    const putAway = (at: string, bytes: Buffer): void =>
      writeFileSync(join(folder, `pulls-${at}.gaugemark`), bytes);
    putAway('2021-05-01T08-00-00Z', whole);
    putAway('2021-05-01T09-00-00Z', whole.subarray(0, -4_096));
    putAway('2021-05-01T10-00-00Z', Buffer.from(whole).fill(7, 8_192, Math.floor(whole.length / 2)));
    writeFileSync(join(folder, 'somebody-elses-2020-01-01T09-00-00Z.gaugemark'), 'not ours');
    const made = await ran(
      'archive',
      'backup',
      '--archive',
      archive,
      '--into',
      folder,
      '--keep-hours',
      '1',
      '--keep-days',
      '2',
      '--keep-months',
      '3',
      '--json',
    );
    const { path, dropped } = JSON.parse(made.out) as { path: string; dropped: string[] };
    expect(dropped.map((name) => basename(name)).sort()).toEqual([
      'pulls-2020-01-01T08-00-00Z.gaugemark',
      'pulls-2020-01-01T09-00-00Z.gaugemark',
    ]);
    expect(readdirSync(folder)).toContain('somebody-elses-2020-01-01T09-00-00Z.gaugemark');

    // The damaged ones hold no place, and are left where they are.
    expect(readdirSync(folder).filter((one) => one.includes('-2021-05-01T'))).toHaveLength(3);

    await asked(
      'import',
      file('b.csv', `${PLAIN}# another file\n`),
      '--archive',
      archive,
      '--specimen',
      specimen,
    );
    const told = await ran('archive', 'restore', path, '--archive', archive, '--json');
    const before = JSON.parse(told.out) as { statementsOnlyHere: number };
    // What was decided since is gone from the archive too, and it is said.
    const reason = ['--zero-load', '1 N', '--reason', 'grips were not zeroed'] as const;
    expect((await ran('archive', 'evaluate', '1', '--archive', archive, ...reason)).code).toBe(0);
    const after = await ran('archive', 'restore', path, '--archive', archive, '--json');
    expect(JSON.parse(after.out)).toMatchObject({ statementsOnlyHere: before.statementsOnlyHere + 1 });
    expect(JSON.parse(told.out)).toMatchObject({ onlyHere: [2], isSameArchive: true, restored: false });
    opened(archive, (kept) => expect(kept.info().pullCount).toBe(2));
    const done = await ran('archive', 'restore', path, '--archive', archive, '--yes', '--json');
    const { setAsideTo } = JSON.parse(done.out) as { setAsideTo: string };
    opened(archive, (kept) => expect(kept.info().pullCount).toBe(1));
    opened(setAsideTo, (kept) => expect(kept.info().pullCount).toBe(2));

    const damaged = join(dirname(archive), 'damaged.gaugemark');
    copyFileSync(path, damaged);
    const bytes = readFileSync(damaged);
    writeFileSync(damaged, bytes.fill(7, 8192, Math.floor(bytes.length / 2)));
    const refused = await ran('archive', 'restore', damaged, '--archive', archive, '--yes');
    expect(refused.code).not.toBe(0);
    opened(archive, (kept) => expect(kept.info().pullCount).toBe(1));
    expect(existsSync(path)).toBe(true);
  });
});
