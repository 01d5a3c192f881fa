/** Learning for a person who looks on: told step by step, stopped at once, never while a pull is recorded. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import type { LearningState } from '../../core/contract/learn-requests.ts';
import { uniformRandom } from '../../drivers/simulated-frame/random.ts';
import { makePty } from './drivers-pty.ts';
import { BY_HAND, RecorderProcess, scratch } from './recorder-process.ts';
import { until } from './support/until.ts';

const line = (count: number): string =>
  `${String(count).padStart(4, '0')} ST +${(count / 8).toFixed(2).padStart(8, '0')} kN\r\n`;

it('learns from a port and shows its lines, with the control lines that were chosen; stops when asked; opens nothing in a pull', async () => {
  const folder = scratch();
  const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
  const told: LearningState[] = [];
  recorder.client.onEvent((name, event) => {
    if (name === 'learning') told.push(event as LearningState);
  });
  const pty = await makePty(folder);
  onTestFinished(pty.kill);
  let count = 0;
  const timer = setInterval(() => void pty.write(line(count++)).catch(() => undefined), 40);
  onTestFinished(() => {
    clearInterval(timer);
  });

  await recorder.ask('readout.learn-port', {
    source: { kind: 'serial', path: pty.path },
    controlLines: { dtr: false, rts: true },
  });
  await until(() => told.at(-1)?.state === 'done', 'the lines are learned');
  const last = told.at(-1);
  if (last === undefined) throw new Error('nothing was told');
  const { proposal, lines, settings } = last;
  expect(told[0]).toMatchObject({ state: 'listening', from: pty.path });
  expect(proposal?.channels).toMatchObject([{ quantity: 'force', unit: 'kN', isSaid: true }]);
  expect(proposal?.profile.controlLines).toEqual({ dtr: false, rts: true });
  expect(proposal?.profile.serial).toEqual(settings);
  expect(proposal?.profile.sequence).toBeDefined();
  expect(lines.length).toBeGreaterThan(5);
  expect(lines[1]).toMatchObject({ misfit: null, values: [{ status: 'ok' }] });
  expect(lines[1]?.text).toContain(lines[1]?.values[0]?.shownText.split(' ')[0]);

  // Nothing speaks here: without being stopped it would be listened to for seconds.
  const silent = await makePty(folder, 'silent');
  onTestFinished(silent.kill);
  await recorder.ask('readout.learn-port', { source: { kind: 'serial', path: silent.path } });
  await recorder.ask('readout.stop-learning', {});
  expect((await recorder.ask('readout.learning', {})).learning).toMatchObject({
    state: 'stopped',
    proposal: null,
  });

  await recorder.ready(silent.path, BY_HAND);
  expect(await recorder.faultOf('readout.learn-port', { source: { kind: 'serial', path: pty.path } })).toBe(
    'pull-open',
  );
  expect((await recorder.ask('session.get', {})).readout?.link).toBe('open');
});

it('learns from a file of recorded bytes, and says what is wrong with one that holds no lines', async () => {
  const folder = scratch();
  const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
  const file = (name: string, text: string): string => {
    writeFileSync(join(folder, name), text, 'latin1');
    return join(folder, name);
  };
  const good = await recorder.ask('readout.learn-file', {
    file: file('bench.bin', Array.from({ length: 40 }, (_, k) => line(k)).join('')),
  });
  expect(good).toMatchObject({ state: 'done', from: 'bench.bin' });
  expect(good.proposal?.channels).toMatchObject([{ quantity: 'force', unit: 'kN' }]);
  const bad = await recorder.ask('readout.learn-file', {
    file: file('noise.bin', '\u0000\u0001'.repeat(500)),
  });
  expect(bad).toMatchObject({ state: 'failed', fault: { code: 'nothing-learned' } });
  const missing = await recorder.ask('readout.learn-file', { file: join(folder, 'no.bin') });
  expect(missing.fault?.sentence).toMatch(/no\.bin can't be read/);
});

it('learns from a file without holding up what is recorded meanwhile', async () => {
  const folder = scratch();
  const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
  const random = uniformRandom(5);
  const signs = '0123456789.,+- \r\n';
  const noise = Buffer.from(
    Array.from({ length: 400_000 }, () => signs.charCodeAt(Math.floor(random() * signs.length))),
  );
  writeFileSync(join(folder, 'noise.bin'), noise);
  const learned = recorder
    .ask('readout.learn-file', { file: join(folder, 'noise.bin') })
    .then(() => 'learned');
  // Answered by the thread that takes the bytes of a port.
  const answered = recorder.ask('session.get', {}).then(() => 'answered');
  expect(await Promise.race([learned, answered])).toBe('answered');
  expect(await learned).toBe('learned');
});
