/** `gaugemark instruments`: the register on the command line, and a pull that names what measured it. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { recorderAccess } from '../../../electron/command-line/recorder-access.ts';
import { readCalibration } from '../../../core/evaluation/calibration-file.ts';
import { ran } from './in-process.ts';

const folder = mkdtempSync(join(tmpdir(), 'gaugemark-test-'));
const archive = join(folder, 'register.gaugemark');

/** One recorder holds the archive, as a window would; the commands find it by its socket. */
beforeAll(async () => {
  const recorder = await recorderAccess({ archive, toRecord: true, note: () => undefined });
  return async () => {
    await recorder.end();
    rmSync(folder, { recursive: true, force: true });
  };
}, 60_000);

const file = (name: string, content: unknown): string => {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
};
const instruments = (...args: string[]) => ran('instruments', ...args, '--archive', archive);

const SHEET = {
  unit: 'kN',
  resolution: '0.01',
  zeros: ['0.00', '0.01', '0.00'],
  steps: ['20', '40', '60', '80', '100'].map((applied) => ({
    applied,
    indicated: [`${applied}.2`, `${applied}.25`, `${applied}.15`],
  })),
};

describe('gaugemark instruments', () => {
  it('enters an instrument by options or from a file', async () => {
    const saved = await instruments(
      'save',
      '--kind',
      'force-channel',
      '--name',
      'LC-20',
      '--to',
      '200 kN',
      '--serial',
      '4711',
    );
    expect(saved).toMatchObject({ code: 0, err: '' });
    const path = file('clip.json', { kind: 'extensometer', name: 'clip 50', resolution: '0.001 mm' });
    expect(await instruments('save', path)).toMatchObject({ code: 0, err: '' });
  });

  it('lists what is due, overdue and without calibration', async () => {
    const table = file('table.csv', 'shown_kN,actual_kN\n0,0\n100,100.25\n');
    const calibrated = await instruments(
      'calibrate',
      '1',
      '--certificate',
      'K-17',
      '--date',
      '2024-01-31',
      '--due',
      '2025-01-31',
      '--table',
      table,
    );
    expect(calibrated.err).toBe('');
    expect(calibrated.out).toContain('correction table of 2 points');
    const { out } = await instruments('list');
    expect(out).toMatch(/1 +force channel +LC-20, no\. 4711 +OVERDUE since 2025-01-31 \(certificate K-17\)/);
    expect(out).toMatch(/2 +extensometer +clip 50 +NO CALIBRATION/);
    const { instruments: all } = JSON.parse((await instruments('list', '--json')).out) as {
      instruments: { calibration: { form: { correction: unknown } } }[];
    };
    expect(all[0]?.calibration.form.correction).toEqual({
      unit: 'N',
      points: [
        { shown: '0', actual: '0' },
        { shown: '100000', actual: '100250' },
      ],
    });
  });

  it('a typed pull keeps certificate and state; show tells them, and the instrument its pulls', async () => {
    const specimen = file('Q-1.json', {
      id: 'Q-1',
      geometry: { kind: 'flat', width: '0.500 in', thickness: '0.250 in' },
    });
    const pulled = await ran(
      'pull',
      '--typed',
      '--specimen',
      specimen,
      '--load',
      '8 kip',
      '--instrument',
      '1',
      '--archive',
      archive,
    );
    expect(pulled.err).toBe('');
    expect(pulled.out).toContain(
      'calibration of the force channel: certificate K-17 of 2024-01-31, due 2025-01-31: OVERDUE',
    );
    const later = await instruments(
      'calibrate',
      '1',
      '--certificate',
      'K-18',
      '--date',
      '2026-01-02',
      '--due',
      '2099-01-31',
    );
    expect(later.out).toContain('1 pull names it, newest first: 1 (overdue)');
    expect((await ran('archive', 'show', '1', '--archive', archive)).out).toContain(
      'OVERDUE at the time of the pull',
    );
    const unknown = await ran(
      'pull',
      '--typed',
      '--specimen',
      specimen,
      '--load',
      '8 kip',
      '--instrument',
      '9',
      '--archive',
      archive,
    );
    expect(unknown).toMatchObject({ code: 2 });
    expect(unknown.err).toContain('no instrument 9');
  });

  it('makes the result of a set questionable by itself, and its certificate says which calibration', async () => {
    const set = file('set.json', {
      name: 'Bracket',
      purpose: 'procedure-qualification',
      rulePackId: 'asme-ix',
      specimenType: 'transverse-flat',
      // 8 kip on 1/8 in² is 64 ksi.
      baseMetals: [{ designation: 'plate of our own', minimum: '60 ksi' }],
    });
    const gaugemark = async (...args: string[]) => {
      const done = await ran(...args, '--archive', archive);
      expect(done.code, done.err).toBe(0);
      return done.out;
    };
    await gaugemark('set', 'save', set);
    await gaugemark('set', 'join', '1', '--pull', '1');
    await gaugemark('archive', 'note-fracture', '--pull', '1', '--broke', 'base-metal');
    const judged = await gaugemark('set', 'judge', '1');
    expect(judged).toMatch(
      /questionable.*the calibration of an instrument was overdue on the day of the pull \(force channel LC-20, no\. 4711, certificate K-17, due 2025-01-31\)/,
    );
    const out = join(folder, 'certificate.json');
    await gaugemark('certificate', '--set', '1', '--out', out);
    const { specimens } = JSON.parse(readFileSync(out, 'utf8')) as {
      specimens: { equipment: { label: string; value: string }[] }[];
    };
    expect(specimens[0]?.equipment).toContainEqual({
      label: 'calibration of the force channel',
      value: 'certificate K-17 of 2024-01-31, due 2025-01-31: OVERDUE at the time of the pull',
    });
  });

  it('works a verification out, and keeps it with class and range where it has a certificate number', async () => {
    const sheet = file('sheet.json', SHEET);
    const looked = await instruments('verify', '1', sheet);
    expect(looked.out).toContain('Nothing was kept');
    const kept = await instruments(
      'verify',
      '1',
      sheet,
      '--certificate',
      'V-1',
      '--date',
      '2026-02-01',
      '--due',
      '2099-02-01',
      '--with-table',
    );
    expect(kept.err).toBe('');
    expect(kept.out).toContain('Kept as a calibration');
    // 20.2 against 20 is 1 %, 20.25 is 1.25 %: class 1 by the mean, but one run outside of ASTM E4.
    expect((await instruments('show', '1')).out).toContain(
      'class 1 (ISO 7500-1); verified from 20 kN to 100 kN; correction table of 6 points; worksheet kept',
    );
  });

  it('hands its correction table to an evaluation as a file, and never over another', async () => {
    const out = join(folder, 'out.csv');
    const written = await instruments('show', '1', '--table-out', out);
    expect(written).toMatchObject({ code: 0 });
    const read = readCalibration(readFileSync(out, 'utf8'));
    // 20.2 kN shown in the mean where 20 kN were applied.
    expect(read).toMatchObject({ ok: true, quantity: 'force' });
    expect(read.ok && read.points[1]).toEqual({ shown: 20_200, actual: 20_000 });
    expect((await instruments('show', '1', '--table-out', out)).err).toContain('is there already');
    expect((await instruments('show', '2', '--table-out', join(folder, 'none.csv'))).err).toContain(
      'no correction table',
    );
  });

  it('works out and keeps the worksheet of an extensometer, and of no other kind of instrument', async () => {
    const sheet = file('extension.json', {
      unit: 'mm',
      gaugeLength: '50',
      measuredGaugeLength: '50',
      resolution: '0.0001',
      steps: ['0.1', '0.2', '0.5', '1', '2'].map((applied) => ({
        applied,
        indicated: [`${applied}${applied.includes('.') ? '' : '.0'}028`, applied],
      })),
    });
    const days = ['--certificate', 'X-1', '--date', '2026-02-01', '--due', '2099-02-01', '--with-table'];
    const kept = await instruments('verify', '2', sheet, ...days);
    expect(kept.err).toBe('');
    expect(kept.out).toContain('ISO 9513: class 1');
    // 2.8 µm: within 3 µm of class 1, and 5.6 in 10⁵ of the gauge length within 10⁻⁴ of B-1.
    expect((await instruments('show', '2')).out).toContain(
      'class 1 (ISO 9513), class B-1 (ASTM E83); verified from 0.1 mm to 2 mm; correction table of 6 points; worksheet kept',
    );
    const still = file('still.json', {
      unit: 'mm',
      gaugeLength: '50',
      resolution: '0.0001',
      steps: ['0.1', '0.2'].map((applied) => ({ applied, indicated: ['0.1', '0.1'] })),
    });
    const flat = await instruments('verify', '2', still, '--with-table');
    expect(flat).toMatchObject({ code: 0 });
    expect(flat.err).toMatch(/do not grow from step to step.*none is kept/);
    const wrong = await instruments('verify', '1', sheet, ...days);
    expect(wrong.code).not.toBe(0);
    expect(wrong.err).toContain(
      'the worksheet is one of an extensometer, and the instrument is of another kind: force channel',
    );
  });

  it('corrects and retires with a reason, and says what is missing', async () => {
    expect((await instruments('retire', '2')).err).toContain('--reason TEXT is missing');
    expect(
      (await instruments('save', '--instrument', '2', '--serial', '12', '--reason', 'read from its plate'))
        .out,
    ).toContain('serial number: 12');
    expect((await instruments('retire', '2', '--reason', 'bent')).out).toContain('clip 50 (retired)');
    const wrong = await instruments(
      'calibrate',
      '1',
      '--certificate',
      'K-19',
      '--date',
      '2026-02-30',
      '--due',
      '2027-01-01',
    );
    expect(wrong).toMatchObject({ code: 2 });
    expect(wrong.err).toMatch(/^--date: .*year-month-day/);
    expect((await instruments('save', '--kind', 'frame')).err).toMatch(/name: this is missing/);
    expect((await instruments('show', 'x')).err).toContain('"gaugemark instruments list" shows them');
    expect((await ran('archive', 'check', '--archive', archive)).code).toBe(0);
  });
});
