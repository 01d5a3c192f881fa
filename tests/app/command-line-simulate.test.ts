/** `gaugemark simulate` at one end of a pty pair, `gaugemark pull` or nobody at the other. */
import { readFileSync, writeFileSync } from 'node:fs';
import { mkdtemp } from 'node:fs/promises';
import { join } from 'node:path';
import { beforeEach, describe, expect, it, onTestFinished } from 'vitest';
import { SPECIMEN, scratch } from './recorder-process.ts';
import { gaugemark } from './support/gaugemark-command.ts';
import { type PortPair, openPortPair } from './support/port-pair.ts';
import { until } from './support/until.ts';

const FIXTURES = new URL('../../fixtures/', import.meta.url).pathname;
const READOUT = join(FIXTURES, 'readouts/simulated-frame-si.json');

interface PullDocument {
  readonly pull: { readonly pullId: number; readonly state: string; readonly readingCount: number };
  readonly marks: readonly { readonly kind: string; readonly elapsedUs: number }[];
  readonly gaps: readonly unknown[];
  readonly results: Readonly<Record<string, { readonly value: number }>>;
}

let folder: string;
let pair: PortPair;
let files: { readonly specimen: string; readonly archive: string };

beforeEach(async () => {
  folder = scratch();
  pair = await openPortPair(folder);
  onTestFinished(() => pair.end());
  const specimen = join(folder, 'specimen.json');
  writeFileSync(specimen, JSON.stringify(SPECIMEN));
  files = { specimen, archive: join(folder, 'a.gaugemark') };
});

function startPull(...more: string[]): ReturnType<typeof gaugemark> {
  return gaugemark(
    ...['pull', '--port', pair.port, '--readout', READOUT, '--specimen', files.specimen],
    ...['--archive', files.archive, '--json', ...more],
  );
}

describe('a simulated pull over a pty pair', () => {
  it('is recorded whole until the tail after the break is over, without a gap', async () => {
    const pull = startPull('--until', 'break');
    await until(() => pull.err().includes('Recording pull 1'), 'the record has begun');
    const simulate = gaugemark(
      ...[
        'simulate',
        '--port',
        pair.readoutSide,
        '--scenario',
        'brittle-weld-defect',
        '--pace',
        '4',
        '--json',
      ],
    );
    expect([await pull.ended(), pull.err()]).toEqual([0, expect.not.stringContaining('No fresh reading')]);
    const { pull: kept, marks, gaps, results } = JSON.parse(pull.out()) as PullDocument;
    expect(gaps).toEqual([]);
    const at = (kind: string): number => (marks.find((m) => m.kind === kind)?.elapsedUs ?? Number.NaN) / 1e6;
    // The whole default tail of 3 s was there to be recorded, at four times true pace too.
    expect(at('record-ends') - at('break')).toBeGreaterThan(2.9);
    expect(kept.state).toBe('ended');
    // The reader is gone: the simulated readout ends by itself, and it ends well.
    expect(await simulate.ended()).toBe(0);
    const { trueValues } = JSON.parse(simulate.out()) as {
      trueValues: { areaMm2: number; largestForceN: number };
    };
    // The largest reading is what the simulated specimen bears; noise lifts it a little.
    expect((results['Fm']?.value ?? 0) / trueValues.largestForceN).toBeCloseTo(1, 2);
  });

  it('says at once what it waits for where nobody reads, and goes on when somebody does', async () => {
    const simulate = gaugemark(
      // Long enough that lines still come when the record has begun.
      ...['simulate', '--port', pair.readoutSide, '--pace', '12', '--rest', '0'],
    );
    await until(
      () => simulate.err().includes('nobody reads: waiting for a reader, for up to 60 s'),
      'it is told',
    );
    expect(simulate.err()).toContain(`Writing to ${pair.readoutSide}.`);
    const pull = startPull('--until', '8');
    expect(await simulate.ended()).toBe(0);
    expect(await pull.ended()).toBe(0);
    expect((JSON.parse(pull.out()) as PullDocument).pull.readingCount).toBeGreaterThan(100);
  });
});

describe('a readout that is not known yet', () => {
  it('is learned, its load and extension named by a person, and then pulled with', async () => {
    const learned = join(folder, 'learned.json');
    const talking = gaugemark(
      ...['simulate', '--port', pair.readoutSide, '--scenario', 'quenched-steel', '--rest', '0'],
    );
    await until(() => talking.err().includes('Writing to'), 'the readout talks');
    const learn = gaugemark(
      ...['learn', '--port', pair.port, '--seconds', '2', '--save', learned],
      ...['--channel', '3=force:N', '--channel', '4=extension:mm'],
    );
    expect([await learn.ended(), learn.err()]).toEqual([0, '']);
    // The one field that is still open is told, and how to name it.
    expect(learn.out()).toContain('for example: --channel 5=travel:mm');
    talking.child.kill('SIGKILL');
    await until(() => talking.child.exitCode !== null || talking.child.signalCode !== null, 'it is silent');

    const again = await mkdtemp(join(folder, 'again-'));
    const other = await openPortPair(again);
    onTestFinished(() => other.end());
    const pull = gaugemark(
      ...['pull', '--port', other.port, '--readout', learned, '--specimen', files.specimen],
      ...['--archive', files.archive, '--json'],
    );
    await until(() => pull.err().includes('Recording pull 1'), 'the record has begun');
    gaugemark(...['simulate', '--port', other.readoutSide, '--scenario', 'quenched-steel', '--pace', '6']);
    expect(await pull.ended()).toBe(0);
    const { gaps, marks, results } = JSON.parse(pull.out()) as PullDocument;
    expect(gaps).toEqual([]);
    expect(marks.map(({ kind }) => kind)).toEqual(
      expect.arrayContaining(['trigger', 'break', 'record-ends']),
    );
    expect(Object.keys(results)).toEqual(expect.arrayContaining(['Fm', 'Rm']));
  });
});

describe('a pull to which nothing comes', () => {
  it('fails with a sentence that says so and what to check', async () => {
    const pull = startPull('--until', '1');
    expect(await pull.ended()).toBe(1);
    const { error } = JSON.parse(pull.out()) as { error: { code: string; sentence: string } };
    expect(error.code).toBe('nothing-received');
    expect(error.sentence).toMatch(/^Nothing came from .*port while pull 1 was recorded; check .*cable/);
    expect(pull.err()).toContain(error.sentence);
  });

  it('or only what the profile cannot read, says how much came and keeps it', async () => {
    const pull = startPull('--until', '2');
    await until(() => pull.err().includes('Recording pull 1'), 'the record has begun');
    await pair.write('hello\r\nhello\r\n');
    expect(await pull.ended()).toBe(1);
    expect(JSON.parse(pull.out())).toMatchObject({
      error: {
        code: 'no-line-read',
        sentence: expect.stringMatching(/^14 bytes came .* pull 1: check/) as unknown,
      },
    });
  });

  it('because its profile knows no force is refused before the port is opened', async () => {
    const profile = JSON.parse(readFileSync(READOUT, 'utf8')) as { channels: { quantity: string }[] };
    const forceless = join(folder, 'forceless.json');
    writeFileSync(
      forceless,
      JSON.stringify({ ...profile, channels: profile.channels.filter((c) => c.quantity !== 'force') }),
    );
    const pull = startPull('--readout', forceless);
    expect(await pull.ended()).toBe(2);
    expect(JSON.parse(pull.out())).toMatchObject({
      error: {
        code: 'force-channel-missing',
        sentence: expect.stringMatching(
          /no channel for the force; it has time \(time\), .*"quantity": "force"/,
        ) as unknown,
      },
    });
  });
});
