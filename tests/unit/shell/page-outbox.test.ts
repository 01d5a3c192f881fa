import { describe, expect, it } from 'vitest';
import type { PageEventOf } from '../../../core/contract/bridge.ts';
import { PageOutbox } from '../../../electron/main/page-outbox.ts';

interface Sent {
  readonly number: number;
  readonly name: string;
  readonly event: unknown;
}

function outboxWithLog(): { outbox: PageOutbox; sent: Sent[] } {
  const sent: Sent[] = [];
  const outbox = new PageOutbox((number, name, event) => sent.push({ number, name, event }));
  return { outbox, sent };
}

function readings(
  firstSeq: number,
  missedFromSeq: number | null = null,
  pullId = 1,
): PageEventOf<'readings'> {
  const one = { firstSeq, count: 1, elapsedUs: new Float64Array(1), chunkSeq: new Float64Array(1) };
  return {
    pullId,
    basis: 0,
    missedFromSeq,
    columns: { ...one, status: new Uint8Array(1), channels: [] },
  };
}

const notice = (code: string): PageEventOf<'notice'> => ({
  severity: 'note',
  code,
  sentence: 'Something.',
  since: 0,
  over: false,
});

describe('messages to a page that is quick', () => {
  it('all go at once, in order', () => {
    const { outbox, sent } = outboxWithLog();
    for (const seq of [0, 1, 2]) {
      outbox.put('readings', readings(seq));
      outbox.taken(sent.at(-1)?.number ?? 0);
    }
    expect(sent.map(({ event }) => (event as { columns: { firstSeq: number } }).columns.firstSeq)).toEqual([
      0, 1, 2,
    ]);
  });
});

describe('messages to a page that is frozen', () => {
  it('are bounded, whatever comes', () => {
    const { outbox, sent } = outboxWithLog();
    for (let seq = 0; seq < 10_000; seq++) {
      outbox.put('readings', readings(seq));
      outbox.put('archive-changed', { path: `/${seq}` });
      outbox.put('notice', notice(`n-${seq}`));
    }
    expect(sent.length).toBeLessThan(12);
  });

  it('of snapshots only the newest goes when it takes the one before', () => {
    const { outbox, sent } = outboxWithLog();
    for (const path of ['/a', '/b', '/c']) outbox.put('archive-changed', { path });
    outbox.taken(sent[0]?.number ?? 0);
    expect(sent.map(({ event }) => event)).toEqual([{ path: '/a' }, { path: '/c' }]);
  });

  it('readings that were left out are named by the next batch that goes', () => {
    const { outbox, sent } = outboxWithLog();
    for (let seq = 0; seq < 20; seq++) outbox.put('readings', readings(seq));
    const gone = sent.length;
    for (const { number } of [...sent]) outbox.taken(number);
    outbox.put('readings', readings(20));
    outbox.put('readings', readings(21));
    expect(sent.slice(gone).map(({ event }) => (event as { missedFromSeq: number }).missedFromSeq)).toEqual([
      gone,
      null,
    ]);
  });

  it('keeps the earlier miss when the recorder left some out too', () => {
    const { outbox, sent } = outboxWithLog();
    for (let seq = 0; seq < 9; seq++) outbox.put('readings', readings(seq));
    const { number } = sent[0] ?? { number: 0 };
    outbox.taken(number);
    outbox.put('readings', readings(30, 20));
    expect((sent.at(-1)?.event as { missedFromSeq: number }).missedFromSeq).toBe(8);
  });

  it('does not carry a miss over into another pull', () => {
    const { outbox, sent } = outboxWithLog();
    for (let seq = 0; seq < 9; seq++) outbox.put('readings', readings(seq));
    for (const { number } of [...sent]) outbox.taken(number);
    outbox.put('readings', readings(0, null, 2));
    expect((sent.at(-1)?.event as { missedFromSeq: number | null }).missedFromSeq).toBeNull();
  });

  it('notices wait in line, since each of them counts', () => {
    const { outbox, sent } = outboxWithLog();
    for (const code of ['one', 'two', 'three']) outbox.put('notice', notice(code));
    outbox.taken(sent[0]?.number ?? 0);
    outbox.taken(sent[1]?.number ?? 0);
    expect(sent.map(({ event }) => (event as { code: string }).code)).toEqual(['one', 'two', 'three']);
  });
});

describe('a page that is loaded again', () => {
  it('starts with nothing under way, and answers of the page before are ignored', () => {
    const { outbox, sent } = outboxWithLog();
    outbox.put('archive-changed', { path: '/a' });
    outbox.put('archive-changed', { path: '/b' });
    const before = sent[0]?.number ?? 0;
    outbox.forget();
    outbox.put('archive-changed', { path: '/c' });
    outbox.taken(before);
    expect(sent.map(({ event }) => event)).toEqual([{ path: '/a' }, { path: '/c' }]);
  });
});
