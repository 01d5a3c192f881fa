/** Processes that freeze, are ended together, or are told to end while a pull is recorded. See `rows.ts`. */
import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it, onTestFinished } from 'vitest';
import type { ReplyOf, RequestInputOf, RequestName } from '../../../core/contract/index.ts';
import { encodeMessage } from '../../../electron/recorder/message-frame.ts';
import { socketPlace } from '../../../electron/recorder/socket-place.ts';
import { BY_HAND, PROFILE, RecorderProcess, SPECIMEN, makeReadout, scratch } from '../recorder-process.ts';
import { expectAllKept } from '../support/all-kept.ts';
import { isAlive } from '../support/processes.ts';
import { recorderClient } from '../support/recorder-client.ts';
import { RECORDER_PROGRAM } from '../support/recorder-program.ts';
import { until } from '../support/until.ts';

/** What a client that never reads may cost: a few messages on their way, and what the engine keeps anyhow. */
const GROWTH_BYTES_MAX = 120 * 1_048_576;

const memoryOf = (pid: number): number =>
  Number(/^VmRSS:\s+(\d+)/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1] ?? 0) * 1024;

describe('P3, P5: whoever watches the recorder stops reading', () => {
  it('costs the recorder neither a reading nor memory without bound, and others go on being served', async () => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    const { pid } = recorder.child;
    if (pid === undefined) throw new Error('the recorder has no process');
    const pullId = await recorder.ready(readout.port, BY_HAND);
    const frozen = connect(socketPlace(recorder.archivePath).path);
    onTestFinished(() => void frozen.destroy());
    await new Promise((done) => frozen.once('connect', done));
    // It asks, and asks for events, and never takes an answer.
    frozen.pause();
    for (let id = 0; id < 200; id++)
      frozen.write(encodeMessage({ head: { kind: 'request', id, name: 'session.get' }, body: {} }));
    await pause(100);
    const before = memoryOf(pid);
    readout.run(1);
    await recorder.untilReadings(1_500);
    await readout.pause();
    await recorder.untilReadings(readout.sent());
    expect(memoryOf(pid) - before).toBeLessThan(GROWTH_BYTES_MAX);
    await recorder.ask('pull.close', {});
    await expectAllKept(recorder, pullId, readout.sent());
  });

  it('a client process that is stopped for seconds (SIGSTOP) catches up when it goes on', async () => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    const pullId = await recorder.ready(readout.port, BY_HAND);
    const watcher = watch(recorder.archivePath);
    await until(() => watcher.counts().length > 0, 'the watcher sees the session');
    watcher.child.kill('SIGSTOP');
    await pause(100);
    readout.run(2);
    await recorder.untilReadings(800);
    const whileStopped = watcher.counts().at(-1) ?? 0;
    expect(whileStopped).toBeLessThan(800);
    watcher.child.kill('SIGCONT');
    await readout.pause();
    await until(() => watcher.counts().at(-1) === readout.sent(), 'the watcher has caught up');
    await recorder.ask('pull.close', {});
    await expectAllKept(recorder, pullId, readout.sent());
  });
});

/** A process of its own that asks for the count of readings again and again. */
function watch(archivePath: string): { child: ChildProcess; counts: () => number[] } {
  const client = new URL('../../../electron/recorder/client.ts', import.meta.url).href;
  const program = `
    const { connectToRecorder } = await import(${JSON.stringify(client)});
    const recorder = await connectToRecorder(${JSON.stringify(archivePath)});
    for (;;) {
      const answer = await recorder.request('session.get', {});
      process.stdout.write((answer.ok ? (answer.value.pull?.readingCount ?? 0) : -1) + '\\n');
      await new Promise((done) => setTimeout(done, 20));
    }`;
  const child = spawn(process.execPath, ['--input-type=module', '-e', program], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  onTestFinished(() => void child.kill('SIGKILL'));
  let text = '';
  child.stdout.on('data', (bytes: Buffer) => (text += bytes.toString()));
  return { child, counts: () => text.split('\n').slice(0, -1).map(Number) };
}

describe('P4, P7: everything is ended at once', () => {
  it('the whole group of processes is killed: the next start goes on in the same record', async () => {
    const folder = scratch();
    const archivePath = join(folder, 'a.gaugemark');
    const readout = await makeReadout(folder);
    const group = spawn(
      'sh',
      ['-c', '"$0" "$1" --archive "$2" & sleep 1000', process.execPath, RECORDER_PROGRAM, archivePath],
      { detached: true, stdio: 'ignore' },
    );
    const { pid } = group;
    if (pid === undefined) throw new Error('the group could not be started');
    onTestFinished(() => endGroup(pid));
    const ask = await asking(archivePath);
    const { specimenId } = await ask('specimen.save', { specimen: SPECIMEN });
    await ask('readout.open', { source: { kind: 'serial', path: readout.port }, profile: PROFILE });
    const { pullId } = await ask('pull.ready', { specimenId, ...BY_HAND });
    await pause(100);
    readout.run(4);
    await until(() => readout.sent() > 30, 'lines are sent');
    await readout.pause();
    await until(
      async () => (await ask('session.get', {})).pull?.readingCount === readout.sent(),
      'every line has been read',
    );
    const { pid: recorderPid } = await ask('program.info', {});
    endGroup(pid);
    await until(() => group.signalCode !== null && !isAlive(recorderPid), 'the group is gone');
    const second = await RecorderProcess.start(archivePath);
    expect((await second.ask('session.get', {})).pull?.pullId).toBe(pullId);
    const codes = async () => (await second.ask('session.get', {})).notices.map(({ code }) => code);
    await second.ask('pull.close', {});
    await expectAllKept(second, pullId, readout.sent());
    // Somebody who comes back only now reads it too; it goes with its record.
    expect(await codes()).toContain('recorder-recovered');
    await second.ask('pull.put-away', {});
    expect(await codes()).not.toContain('recorder-recovered');
  });
});

/** SIGKILL for everything in it; nothing where it has ended. */
function endGroup(leader: number): void {
  try {
    process.kill(-leader, 'SIGKILL');
  } catch {
    // It has ended.
  }
}

async function asking(
  archivePath: string,
): Promise<<N extends RequestName>(name: N, payload: RequestInputOf<N>) => Promise<ReplyOf<N>>> {
  const client = await recorderClient(archivePath);
  return async (name, payload) => {
    const answer = await client.request(name, payload);
    if (!answer.ok) throw new Error(`${name}: ${answer.fault.sentence}`);
    return answer.value;
  };
}

describe('P7: the computer shuts down while a pull is recorded', () => {
  it('SIGHUP ends nothing; SIGTERM keeps all that came, ends soon, and the record goes on at the next start', async () => {
    const folder = scratch();
    const archivePath = join(folder, 'a.gaugemark');
    const readout = await makeReadout(folder);
    const first = await RecorderProcess.start(archivePath);
    const pullId = await first.ready(readout.port, BY_HAND);
    await pause(100);
    readout.run(4);
    await first.untilReadings(20);
    first.child.kill('SIGHUP');
    await first.untilReadings(60);
    await readout.pause();
    await first.untilReadings(readout.sent());
    expect(await first.stop()).toBe(0);
    const second = await RecorderProcess.start(archivePath);
    expect((await second.ask('session.get', {})).pull?.pullId).toBe(pullId);
    await second.ask('pull.close', {});
    await expectAllKept(second, pullId, readout.sent());
  });
});
