/** A record for which the readout is opened holds everything from the opening on, whatever comes while it is begun. */
import { expect, it } from 'vitest';
import { type Transport, type TransportListener, monotonicUs } from '../../../drivers/transport.ts';
import { PROFILE } from '../archive/made-archive.ts';
import { type Ask, BY_HAND, TEST_PORT, begunRecorder } from './begun-recorder.ts';

/** A source that talks as soon as it is open, and how many times it is open. */
function eagerSource(open: (to: TransportListener) => void): {
  make: () => Transport;
  openNow: () => number;
} {
  let count = 0;
  return {
    openNow: () => count,
    make: () => ({
      kind: 'serial',
      place: 'an eager source',
      open: (to) => {
        count++;
        open(to);
        return Promise.resolve();
      },
      write: () => Promise.resolve(),
      close: () => {
        count--;
        return Promise.resolve();
      },
    }),
  };
}

const say = (to: TransportListener, text: string): void => to.onChunk(Buffer.from(text), monotonicUs());

async function rawOf(ask: Ask, pullId: number): Promise<string> {
  const { bytes } = await ask('pull.raw', { pullId, fromChunk: 0, count: 1000 });
  return Buffer.from(bytes).toString();
}

it('keeps what came before the record had begun, in order, at the time at which it came', async () => {
  const later: (() => void)[] = [];
  const source = eagerSource((to) => {
    say(to, '1,0.1\r\n2,0');
    // In the turns after the opening the archive begins the pull.
    queueMicrotask(() => say(to, '.2\r\n'));
    setImmediate(() => say(to, '3,0.3\r\n'));
    later.push(() => say(to, '4,0.4\r\n'));
  });
  const { ask, specimenId } = await begunRecorder({ make: source.make });
  const { pullId } = await ask('pull.ready', { specimenId, source: TEST_PORT, profile: PROFILE, ...BY_HAND });
  for (const act of later) act();
  await ask('pull.close', {});
  expect(await rawOf(ask, pullId)).toBe('1,0.1\r\n2,0.2\r\n3,0.3\r\n4,0.4\r\n');
  const { elapsedUs } = await ask('pull.raw', { pullId, fromChunk: 0, count: 1000 });
  expect([...elapsedUs]).toEqual([...elapsedUs].sort((a, b) => a - b));
  expect(elapsedUs[0]).toBe(0);
  // The first line of a port that is opened at any moment may be half a one; the raw bytes keep it.
  const { columns } = await ask('pull.readings', { pullId, fromSeq: 0, count: 10 });
  expect([...(columns.channels[0]?.value ?? [])].map((v) => Math.round(v / 4.4482216152605))).toEqual([
    2, 3, 4,
  ]);
  expect((await ask('archive.check', { pullId })).sound).toBe(true);
});

it('marks the gap where the source went and came back before the record had begun', async () => {
  let isFirst = true;
  const source = eagerSource((to) => {
    say(to, '1,0.1\r\n2,0.2\r\n');
    // On a busy machine it is opened again before the record has begun; it stays then.
    if (isFirst) queueMicrotask(() => to.onClose({ kind: 'lost', sentence: 'The adapter was pulled out.' }));
    isFirst = false;
  });
  const { ask, specimenId } = await begunRecorder({ make: source.make });
  const { pullId } = await ask('pull.ready', { specimenId, source: TEST_PORT, profile: PROFILE, ...BY_HAND });
  await ask('pull.close', {});
  expect(await rawOf(ask, pullId)).toMatch(/^1,0\.1\r\n2,0\.2\r\n/);
  expect((await ask('pull.get', { pullId })).gaps.map((g) => g.cause)).toEqual(['signal-lost']);
});

it('opens no port for a record of a specimen that is not there', async () => {
  const source = eagerSource((to) => say(to, '1,0.1\r\n'));
  const { ask, specimenId } = await begunRecorder({ make: source.make });
  await expect(
    ask('pull.ready', { specimenId: specimenId + 1, source: TEST_PORT, profile: PROFILE, ...BY_HAND }),
  ).rejects.toThrow('no-such-specimen');
  expect(source.openNow()).toBe(0);
  expect((await ask('session.get', {})).state).toBe('closed');
});

it('opens a port that is listened to once, whatever is done with the record: opening could reset the instrument (S9)', async () => {
  const { ask, specimenId, opened, send } = await begunRecorder();
  await ask('readout.open', { source: TEST_PORT, profile: PROFILE });
  send('1,0.1');
  await ask('pull.ready', { specimenId, ...BY_HAND });
  send('2,0.2');
  await ask('pull.start', {});
  send('3,0.3');
  await ask('pull.stop', {});
  send('4,0.4');
  await ask('pull.continue', {});
  send('5,0.5');
  await ask('pull.close', {});
  send('6,0.6');
  await ask('pull.ready', { specimenId, ...BY_HAND });
  await ask('pull.close', {});
  expect(opened).toEqual([TEST_PORT]);
});
