/** `gaugemark pull` and `gaugemark archive` as they are typed: real processes, a real port, exit codes and sentences. */
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runCommandLine } from '../../electron/command-line/main.ts';
import { PROFILE, RecorderProcess, SPECIMEN, lineOf, makeReadout, scratch } from './recorder-process.ts';
import { gaugemark, gaugemarkFromSource } from './support/gaugemark-command.ts';
import { until } from './support/until.ts';

/** Exit code and the fault of a command that is refused; in this process, since only its answer is looked at. */
async function refused(...args: string[]): Promise<[number, string]> {
  const out: string[] = [];
  const err: string[] = [];
  const io = { out: (text: string) => void out.push(text), err: (text: string) => void err.push(text) };
  const code = await runCommandLine([...args, '--json'], io);
  const document = JSON.parse(out.join('')) as { error: { code: string; sentence: string } };
  expect(out.length).toBe(1);
  expect(err).toContain(document.error.sentence);
  return [code, document.error.code];
}

function inputs(folder: string): { readout: string; specimen: string; archive: string } {
  const readout = join(folder, 'readout.json');
  const specimen = join(folder, 'specimen.json');
  writeFileSync(readout, JSON.stringify(PROFILE));
  writeFileSync(specimen, JSON.stringify(SPECIMEN));
  return { readout, specimen, archive: join(folder, 'a.gaugemark') };
}

/** "2026-11-25T17:31" as a clock on the wall shows it. */
function localText(at: Date): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}T${two(at.getHours())}:${two(at.getMinutes())}`;
}

/** 0 at first, a rise to 30 kN, then nothing. */
const course = (count: number): number => (count < 20 ? 3 : count < 170 ? 200 * (count - 18) : 12);

interface PullDocument {
  readonly pull: { readonly pullId: number; readonly state: string; readonly readingCount: number };
  readonly specimen: unknown;
  readonly marks: readonly { readonly kind: string; readonly seq: number }[];
  readonly results: Readonly<Record<string, { readonly value: number; readonly unit: string }>>;
}

/** What a pull told after the line with which its record began; calibration is told before. */
/** A machine that is busy beyond measure leaves the bench silent; silence has a test of its own. */
const OF_A_SLOW_MACHINE = /^(?:There is no fresh reading from the readout;|Readings arrive again\.)/;

function toldSinceBegun(pull: ReturnType<typeof gaugemark>): string[] {
  const lines = pull.err().trimEnd().split('\n');
  const begun = lines.findIndex((line) => line.startsWith('Recording pull '));
  return begun === -1 ? [] : lines.slice(begun + 1);
}

describe('gaugemark pull', () => {
  it('records a pull from a port until the break, prints one document, and the archive gives the same again', async () => {
    const folder = scratch();
    const { readout, specimen, archive } = inputs(folder);
    const bench = await makeReadout(folder);
    // Recorded and shown by the program as it is shipped, from its source; all else by the same in one file.
    const pull = gaugemarkFromSource(
      ...['pull', '--port', bench.port, '--readout', readout, '--specimen', specimen, '--archive', archive],
      ...['--until', 'break', '--tail', '1', '--operator', 'bench 2', '--json'],
    );
    await until(() => pull.err().includes('Recording pull 1'), 'the record has begun');
    await new Promise((done) => setTimeout(done, 100));
    bench.run(5, course);
    expect(await pull.ended()).toBe(0);
    expect(toldSinceBegun(pull).filter((line) => !OF_A_SLOW_MACHINE.test(line))).toEqual([
      "Pull 1: closed by itself 1 s after the break, which can't be taken back here. If the specimen had not broken (slipped grips), pull on with a new record.",
    ]);
    await bench.pause();
    const document = JSON.parse(pull.out()) as PullDocument;
    expect(document.pull).toMatchObject({ pullId: 1, state: 'ended' });
    expect(document.specimen).toEqual(SPECIMEN);
    expect(document.marks.map((m) => [m.kind, m.seq]).slice(0, 3)).toEqual([
      ['record-begins', 0],
      ['trigger', 20],
      ['break', 170],
    ]);
    expect(document.results['Fm']).toMatchObject({ value: 30_200, unit: 'N' });

    const show = gaugemarkFromSource('archive', 'show', '1', '--archive', archive, '--json');
    expect(await show.ended()).toBe(0);
    expect(JSON.parse(show.out())).toEqual(document);

    const words = gaugemark('archive', 'show', '1', '--archive', archive);
    expect(await words.ended()).toBe(0);
    const [local = '', utc = ''] =
      /begun (\S+[+-]\d\d:\d\d) \((\S+Z) in UTC\)/.exec(words.out())?.slice(1) ?? [];
    expect(Date.parse(local)).toBe(Date.parse(utc));
    // The offset of the place is that of the computer's own clock.
    expect(local.slice(0, 16)).toBe(localText(new Date(utc)));

    const list = gaugemark('archive', 'list', '--archive', archive, '--json');
    await list.ended();
    expect(JSON.parse(list.out())).toMatchObject({
      pulls: [{ pullId: 1, specimenName: 'P-1', operator: 'bench 2' }],
    });

    const csv = join(folder, 'pull.csv');
    expect(await gaugemark('archive', 'export', '1', '--archive', archive, '--out', csv).ended()).toBe(0);
    expect(readFileSync(csv, 'utf8')).toContain(`# started: ${local} (`);
    const evaluate = gaugemark('evaluate', csv, '--specimen', specimen, '--json');
    expect(await evaluate.ended()).toBe(0);
    expect((JSON.parse(evaluate.out()) as PullDocument).results['Rm']).toEqual(document.results['Rm']);
    expect(await refused('archive', 'export', '1', '--archive', archive, '--out', csv)).toEqual([
      2,
      'file-exists',
    ]);

    const check = gaugemark('archive', 'check', '--archive', archive);
    expect([await check.ended(), check.out()]).toEqual([0, expect.stringContaining('parsed again')]);
    const copy = join(folder, 'copy.gaugemark');
    expect(await gaugemark('archive', 'backup', '--archive', archive, '--out', copy).ended()).toBe(0);
    expect(await gaugemark('archive', 'check', '--archive', copy).ended()).toBe(0);
  });

  it('closes the record after so many seconds, or on Ctrl-C, with everything that came', async () => {
    const folder = scratch();
    const { readout, specimen, archive } = inputs(folder);
    const bench = await makeReadout(folder);
    bench.run(5);
    const args = [
      '--port',
      bench.port,
      '--readout',
      readout,
      '--specimen',
      specimen,
      '--archive',
      archive,
      '--json',
    ];
    const timed = gaugemark('pull', ...args, '--until', '0.7');
    expect(await timed.ended()).toBe(0);
    const first = JSON.parse(timed.out()) as PullDocument;
    expect(first.pull.readingCount).toBeGreaterThan(10);
    const interrupted = gaugemark('pull', ...args);
    await until(() => interrupted.err().includes('Recording pull 2'), 'the record has begun');
    await new Promise((done) => setTimeout(done, 300));
    interrupted.child.kill('SIGINT');
    expect(await interrupted.ended()).toBe(0);
    expect((JSON.parse(interrupted.out()) as PullDocument).pull.state).toBe('ended');
  });

  it('goes through the recorder that is running, and a window can watch a pull of its own', async () => {
    const folder = scratch();
    const { readout, specimen, archive } = inputs(folder);
    const bench = await makeReadout(folder);
    const recorder = await RecorderProcess.start(archive);
    bench.run(5);
    const args = ['--port', bench.port, '--readout', readout, '--specimen', specimen, '--archive', archive];
    const pull = gaugemark('pull', ...args, '--until', '600', '--json');
    await recorder.untilReadings(5);
    // One record at a time, whoever asks.
    expect(await refused('pull', ...args)).toEqual([1, 'pull-open']);
    // A backup goes on between its commits, and is a whole archive with the open record in it.
    const copy = join(folder, 'copy.gaugemark');
    const backup = gaugemark('archive', 'backup', '--archive', archive, '--out', copy);
    expect([await backup.ended(), backup.err()]).toEqual([0, '']);
    expect(await gaugemark('archive', 'check', '--archive', copy).ended()).toBe(0);
    const inCopy = gaugemark('archive', 'list', '--archive', copy, '--json');
    await inCopy.ended();
    const [copied] = (JSON.parse(inCopy.out()) as { pulls: { pullId: number; readingCount: number }[] })
      .pulls;
    expect(copied).toMatchObject({ pullId: 1 });
    expect(copied?.readingCount).toBeGreaterThanOrEqual(5);
    pull.child.kill('SIGTERM');
    expect(await pull.ended()).toBe(0);
    expect((await recorder.ask('pull.list', { limit: 5 })).items.length).toBe(1);
    await recorder.stop();

    const alone = gaugemark('pull', ...args, '--until', '60');
    await until(() => alone.err().includes('Recording pull 2'), 'the record has begun');
    const { connectToRecorder } = await import('../../electron/recorder/client.ts');
    const window = await connectToRecorder(archive);
    expect(await window?.request('session.get', {})).toMatchObject({
      ok: true,
      value: { pull: { pullId: 2 } },
    });
    expect(await window?.request('pull.close', {})).toMatchObject({ ok: true, value: { state: 'ended' } });
    expect(await alone.ended()).toBe(0);
    window?.close();
  });

  it('closes the record that a killed recorder left open, and then makes its own', async () => {
    const folder = scratch();
    const { readout, specimen, archive } = inputs(folder);
    const bench = await makeReadout(folder);
    const recorder = await RecorderProcess.start(archive);
    await recorder.ready(bench.port);
    bench.run(5);
    await recorder.untilReadings(40);
    await recorder.kill();
    const pull = gaugemark(
      ...['pull', '--port', bench.port, '--readout', readout, '--specimen', specimen],
      ...['--archive', archive, '--until', '0.5', '--json'],
    );
    expect(await pull.ended()).toBe(0);
    expect(pull.err()).toContain('Pull 1 had been left open');
    expect((JSON.parse(pull.out()) as PullDocument).pull.pullId).toBe(2);
    const first = gaugemark('archive', 'show', '1', '--archive', archive, '--json');
    expect(await first.ended()).toBe(0);
    const { pull: kept } = JSON.parse(first.out()) as PullDocument;
    expect([kept.state, kept.readingCount >= 40]).toEqual(['ended', true]);
  });

  it('tells a silent readout once in full, then that readings arrive again, then in short', async () => {
    const folder = scratch();
    const { readout, specimen, archive } = inputs(folder);
    const bench = await makeReadout(folder);
    const pull = gaugemark(
      ...['pull', '--port', bench.port, '--readout', readout, '--specimen', specimen],
      ...['--archive', archive, '--until', '600'],
    );
    const told = (): string[] => toldSinceBegun(pull);
    await until(() => told().length === 1, 'the silence before the pull is told');
    bench.run(5);
    await until(() => told().length === 2, 'the end of the silence is told');
    await bench.pause();
    await until(() => told().length === 3, 'the second silence is told');
    pull.child.kill('SIGINT');
    expect(await pull.ended()).toBe(0);
    expect(told()).toEqual([
      expect.stringMatching(/^There is no fresh reading from the readout; see that/),
      'Readings arrive again.',
      'Again: There is no fresh reading from the readout.',
    ]);
  });

  it('pulls on the simulated frame without any port, from the first line that it sends', async () => {
    const folder = scratch();
    const { archive } = inputs(folder);
    const pull = gaugemark(
      ...['pull', '--simulated', 'mild-steel-yield-point', '--pace', '50', '--tail', '0.5'],
      ...['--archive', archive, '--json'],
    );
    expect(await pull.ended()).toBe(0);
    const { results, pull: kept } = JSON.parse(pull.out()) as PullDocument;
    expect(kept.state).toBe('ended');
    expect(Object.keys(results)).toEqual(expect.arrayContaining(['Fm', 'Rm', 'ReH', 'A']));
    // Its clock begins at 0 with its first line, which it sends before the record has been begun.
    const csv = join(folder, 'pull.csv');
    expect(await gaugemark('archive', 'export', '1', '--archive', archive, '--out', csv).ended()).toBe(0);
    const [names = '', first = ''] = readFileSync(csv, 'utf8')
      .split('\n')
      .filter((line) => !line.startsWith('#'));
    expect(first.split(',')[names.split(',').indexOf('shown_readout_time_s')]).toBe('0.000');
  });

  it('pulls from what the address of a source names: recorded bytes, whose end ends the record', async () => {
    const folder = scratch();
    const { readout, specimen, archive } = inputs(folder);
    const file = join(folder, 'recorded.bin');
    writeFileSync(file, Array.from({ length: 200 }, (_, i) => lineOf(i, course(i))).join(''));
    const pull = gaugemark(
      ...['pull', '--port', `replay:${file}`, '--pace', 'faster', '--readout', readout],
      ...['--specimen', specimen, '--archive', archive, '--json'],
    );
    expect(await pull.ended(), pull.err()).toBe(0);
    const { pull: kept, marks } = JSON.parse(pull.out()) as PullDocument;
    expect(kept.readingCount).toBe(200);
    expect(marks.map(({ kind }) => kind)).toEqual(['record-begins', 'trigger', 'break', 'record-ends']);
  });
});

describe('wrong input', () => {
  it('is refused before anything is opened, with what is wrong, and no archive is begun', async () => {
    const folder = scratch();
    const { readout, specimen, archive } = inputs(folder);
    const bench = await makeReadout(folder);
    const wrong = (name: string, text: string): string => {
      writeFileSync(join(folder, name), text);
      return join(folder, name);
    };
    const port = ['--port', bench.port, '--archive', archive];
    const files = ['--readout', readout, '--specimen', specimen];
    const cases: readonly (readonly [readonly string[], string])[] = [
      [['--port', join(folder, 'nothing'), ...files, '--archive', archive], 'port-missing'],
      [['--port', 'tcp:127.0.0.1', ...files, '--archive', archive], 'option-value-wrong'],
      [['--port', `replay:${join(folder, 'nothing')}`, ...files, '--archive', archive], 'file-missing'],
      [files, 'option-missing'],
      [[...port, '--specimen', specimen], 'option-missing'],
      [[...port, '--readout', readout], 'option-missing'],
      [[...port, '--readout', readout, '--specimen', wrong('empty.json', '')], 'json-empty'],
      [[...port, '--readout', readout, '--specimen', wrong('no.json', '{"id":')], 'json-wrong'],
      [
        [...port, '--readout', readout, '--specimen', wrong('huge.json', ' '.repeat(2_000_000))],
        'file-too-large',
      ],
      [
        [
          ...[...port, '--readout', readout, '--specimen'],
          wrong('zero.json', JSON.stringify({ ...SPECIMEN, gaugeLength: '0 mm' })),
        ],
        'specimen-wrong',
      ],
      [
        [...port, '--readout', wrong('p.json', '{"name":"x"}'), '--specimen', specimen],
        'readout-profile-wrong',
      ],
      [[...port, ...files, '--until', 'dawn'], 'option-value-wrong'],
      [[...port, ...files, '--trigger', '500'], 'option-value-wrong'],
      [[...port, ...files, '--simulated', 'mild-steel-yield-point'], 'options-exclude'],
      [['--simulated', 'rubber', '--archive', archive], 'scenario-unknown'],
    ];
    for (const [args, code] of cases) expect(await refused('pull', ...args), code).toEqual([2, code]);
    expect(existsSync(archive)).toBe(false);
  });

  it('is a plain file given as a port, a folder that is not there, a letter given as an archive', async () => {
    const folder = scratch();
    const { readout, specimen, archive } = inputs(folder);
    const files = ['--readout', readout, '--specimen', specimen];
    const plain = join(folder, 'plain');
    writeFileSync(plain, 'text');
    for (const path of [plain, folder]) {
      expect(await refused('pull', '--port', path, ...files, '--archive', archive)).toEqual([
        2,
        'not-a-port',
      ]);
      // No archive is begun for a pull that can't be.
      expect(readdirSync(folder).sort()).toEqual(['plain', 'readout.json', 'specimen.json']);
    }
    writeFileSync(archive, '');
    expect(await refused('pull', '--port', plain, ...files, '--archive', archive)).toEqual([2, 'not-a-port']);
    expect(readFileSync(archive).length).toBe(0);
    const bench = await makeReadout(folder);
    const port = ['--port', bench.port, ...files];
    expect(await refused('pull', ...port, '--archive', join(folder, 'gone', 'a'))).toEqual([
      2,
      'archive-folder-missing',
    ]);
    expect(await refused('pull', ...port, '--archive', specimen)).toEqual([2, 'archive-not-a-database']);
    expect(readFileSync(specimen, 'utf8')).toBe(JSON.stringify(SPECIMEN));
    expect(await refused('archive', 'list', '--archive', join(folder, 'none'))).toEqual([
      2,
      'archive-missing',
    ]);
    expect(existsSync(join(folder, 'none'))).toBe(false);
    expect(await refused('archive', 'show', 'twelve', '--archive', archive)).toEqual([
      2,
      'pull-number-wrong',
    ]);
    expect(await refused('archive', 'burn', '--archive', archive)).toEqual([2, 'action-unknown']);
    expect(await refused('archive', 'export', '1', '--archive', archive)).toEqual([2, 'option-missing']);
  });
});
