/** A readout that sends one line a press of its print key: from the press to the kept record, told as a peak, found again. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { SILENCE_MS_MIN } from '../../core/limits.ts';
import { shippedProfile } from '../../drivers/profiles.ts';
import { makePty } from './drivers-pty.ts';
import { RULES, RecorderProcess, SPECIMEN, scratch } from './recorder-process.ts';
import { gaugemark } from './support/gaugemark-command.ts';
import { until } from './support/until.ts';

const PROFILE = shippedProfile('Example: indicator with a print key (lbf)');
if (PROFILE === null) throw new Error('it ships');
const PRINTED_LBF = 12_345;
/** Pound-force in newtons, by definition of the pound and of standard gravity (NIST SP 811). */
const LBF_N = 4.448_221_615_260_5;

it('keeps the press, raises no alarm while nobody presses, takes no second press for a break, and is found again', async () => {
  const folder = scratch();
  const pty = await makePty(folder);
  onTestFinished(pty.kill);
  const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
  const { specimenId } = await recorder.ask('specimen.save', { specimen: SPECIMEN });
  // Rules that watch the load are given, as the window gives them; there is no load of the moment to watch.
  const { pullId } = await recorder.ask('pull.ready', {
    specimenId,
    source: { kind: 'serial', path: pty.path },
    profile: PROFILE,
    ...RULES,
  });
  await new Promise((done) => setTimeout(done, SILENCE_MS_MIN + 500));
  expect(recorder.notices.filter(({ severity }) => severity === 'alarm')).toEqual([]);
  await pty.write(`N ${PRINTED_LBF.toFixed(1)} lbf\r`);
  await recorder.untilReadings(1);
  await pty.write(`N ${PRINTED_LBF.toFixed(1)} lbf\rO ------- lbf\r`);
  await recorder.untilReadings(3);
  const { state, pull } = await recorder.ask('session.get', {});
  expect([state, pull?.peak?.forceN]).toEqual(['ready', PRINTED_LBF * LBF_N]);
  await recorder.ask('pull.close', {});

  const kept = await recorder.ask('pull.get', { pullId });
  expect(kept.marks.filter(({ kind }) => kind === 'trigger' || kind === 'break')).toEqual([]);
  expect(await recorder.rawOf(pullId)).toBe('N 12345.0 lbf\rN 12345.0 lbf\rO ------- lbf\r');
  const evaluation = await recorder.ask('pull.evaluate', { pullId });
  const valueOf = (symbol: string) => evaluation.results.find((one) => one.symbol === symbol)?.value;
  expect(valueOf('Fm')).toBeCloseTo(PRINTED_LBF * LBF_N, 6);
  expect(valueOf('Rm')).toBeCloseTo((PRINTED_LBF * LBF_N) / (20.1 * 6.2), 6);
  expect(evaluation.withheld.find(({ symbol }) => symbol === 'Rp0.2')?.reason).toMatch(/peak alone/);
  expect(evaluation.remarks.join(' ')).toMatch(/shows its peak alone: 2 values were recorded and no curve/);
  const found = await recorder.ask('archive.search', { query: { text: SPECIMEN.id } });
  expect(found.items.map((one) => [one.pullId, one.peakForceN])).toEqual([[pullId, PRINTED_LBF * LBF_N]]);
  expect((await recorder.ask('archive.check', {})).sound).toBe(true);
});

it('records from the command line until the tail after the first press, and says that there is no curve', async () => {
  const folder = scratch();
  const pty = await makePty(folder);
  onTestFinished(pty.kill);
  const file = (name: string, content: unknown): string => {
    writeFileSync(join(folder, name), JSON.stringify(content));
    return join(folder, name);
  };
  const archive = join(folder, 'a.gaugemark');
  const pulled = gaugemark(
    ...['pull', '--port', pty.path, '--readout', file('readout.json', PROFILE)],
    ...['--specimen', file('specimen.json', SPECIMEN), '--archive', archive, '--tail', '1'],
  );
  await until(() => pulled.err().includes('shows its peak alone'), 'it is told');
  await pty.write(`N ${PRINTED_LBF.toFixed(1)} lbf\r`);
  expect(await pulled.ended()).toBe(0);
  expect(pulled.out()).toMatch(/peak alone/);
  const shown = gaugemark('archive', 'search', SPECIMEN.id, '--archive', archive);
  expect(await shown.ended()).toBe(0);
  expect(shown.out()).toMatch(/P-1 +54913 N +440\.6 MPa/);
});
