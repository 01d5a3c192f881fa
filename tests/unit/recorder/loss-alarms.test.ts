/** The alarms of what may be lost, or is: each is told, is over when its trouble is, and says no more than is so. */
import { describe, expect, it, onTestFinished, vi } from 'vitest';
import { FREE_BYTES_WARNING } from '../../../core/limits.ts';
import type { Notice } from '../../../core/contract/notice.ts';
import { Spool } from '../../../electron/recorder/spool.ts';
import { until } from '../../app/support/until.ts';
import { type BegunRecorder, BY_HAND, TEST_PORT, begunRecorder } from './begun-recorder.ts';
import { loadProfile } from './played-readout.ts';

const LINES_KEPT = 4;
const LINE = '1000.0';
const LINE_BYTES = `${LINE}\r\n`.length;

async function standing({ ask }: BegunRecorder, code: string): Promise<Notice | undefined> {
  return (await ask('session.get', {})).notices.find((notice) => notice.code === code);
}

/** Its number; a record is open, and the port has been heard. */
async function recording({ ask, specimenId, send, recorder }: BegunRecorder): Promise<number> {
  await ask('readout.open', { source: TEST_PORT, profile: loadProfile() });
  const { pullId } = await ask('pull.ready', { specimenId, ...BY_HAND });
  // The first may be the rest of a line, and is no reading.
  send('0.0');
  await until(() => recorder.recording?.committer.heldBytes === 0, 'it is in the archive');
  return pullId;
}

async function loadsOf({ ask }: BegunRecorder, pullId: number): Promise<number[]> {
  const { columns } = await ask('pull.readings', { pullId, fromSeq: 0, count: 100 });
  return [...(columns.channels[0]?.value ?? [])];
}

describe('a disk with little room', () => {
  it('is told with the room that is wanted, and no longer once there is room', async () => {
    let freeBytes = FREE_BYTES_WARNING - 1;
    const begun = await begunRecorder({ told: { readFreeBytes: () => freeBytes } });
    const told = await standing(begun, 'disk-nearly-full');
    expect(told).toMatchObject({
      severity: 'warning',
      sentence: expect.stringContaining('200 MiB') as string,
    });
    freeBytes = FREE_BYTES_WARNING;
    // Looked at again at the end of every record.
    await recording(begun);
    await begun.ask('pull.close', {});
    await until(async () => (await standing(begun, 'disk-nearly-full')) === undefined, 'it is over');
  });
});

describe('a spool that can not be written to', () => {
  it('is an alarm; all that comes is in the archive, and it is over with the first bytes that are written', async () => {
    const begun = await begunRecorder();
    const pullId = await recording(begun);
    const refused = vi.spyOn(Spool.prototype, 'append').mockImplementation(() => {
      throw Object.assign(new Error('no space left on device'), { code: 'ENOSPC' });
    });
    onTestFinished(() => refused.mockRestore());
    begun.send('1.0', '2.0');
    begun.send('3.0');
    const told = await standing(begun, 'spool-not-written');
    expect(told).toMatchObject({
      severity: 'alarm',
      sentence: expect.stringContaining('recording goes on') as string,
    });
    refused.mockRestore();
    begun.send('4.0');
    expect(await standing(begun, 'spool-not-written')).toBeUndefined();
    await begun.ask('pull.close', {});
    expect(await loadsOf(begun, pullId)).toEqual([1, 2, 3, 4]);
    expect((await begun.ask('pull.get', { pullId })).gaps).toEqual([]);
  });
});

describe('memory that is full while the archive can not be written to', () => {
  it('is an alarm with a gap that ends with the next reading; nothing is joined across it', async () => {
    const begun = await begunRecorder({ told: { heldBytesMax: LINES_KEPT * LINE_BYTES + 2 } });
    const pullId = await recording(begun);
    // More than is held until the next commit, at once. The last two bytes that are kept begin a line.
    for (let i = 0; i < LINES_KEPT; i++) begun.send(LINE);
    begun.sendBytes('20');
    begun.sendBytes('00.0\r\n');
    expect(await standing(begun, 'readings-not-kept')).toMatchObject({
      severity: 'alarm',
      sentence: expect.stringContaining('readings are being lost') as string,
    });
    const during = begun.recorder.recording;
    expect(during?.gaps.map(({ cause, toElapsedUs }) => [cause, toElapsedUs])).toEqual([
      ['readings-not-kept', null],
    ]);
    await until(() => during?.savedThroughSeq === LINES_KEPT, 'what was held is in the archive');
    // Behind "20" this would read 20999.0.
    begun.sendBytes('999.0\r\n');
    expect(await standing(begun, 'readings-not-kept')).toBeUndefined();
    begun.send('5.0');
    begun.send('6.0');
    await begun.ask('pull.close', {});

    const loads = await loadsOf(begun, pullId);
    expect(loads).not.toContain(20_999);
    expect(loads.slice(0, LINES_KEPT)).toEqual(Array.from({ length: LINES_KEPT }, () => 1000));
    expect(loads.slice(-2)).toEqual([5, 6]);
    const { gaps, misfitCount } = await begun.ask('pull.get', { pullId });
    expect(gaps).toMatchObject([{ cause: 'readings-not-kept', beforeSeq: LINES_KEPT }]);
    expect(gaps[0]?.toElapsedUs ?? -1).toBeGreaterThanOrEqual(gaps[0]?.fromElapsedUs ?? 0);
    expect(misfitCount).toMatchObject({ incomplete: 1 });
    expect((await begun.ask('archive.check', { pullId })).lines.filter(({ ok }) => !ok)).toEqual([]);
  });
});
