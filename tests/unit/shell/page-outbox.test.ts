import { describe, expect, it } from 'vitest';
import { type PageEventName, type PageEventOf, pageEvents } from '../../../core/contract/bridge.ts';
import { PREVIEW_LINES_MAX } from '../../../core/limits.ts';
import { PageOutbox } from '../../../electron/main/page-outbox.ts';

interface Sent {
  readonly number: number;
  readonly name: string;
  readonly event: unknown;
}

function outboxWithLog(): { outbox: PageOutbox; sent: Sent[] } {
  const sent: Sent[] = [];
  const outbox = new PageOutbox((number, name, event) => sent.push({ number, name, event }));
  listensToAll(outbox);
  return { outbox, sent };
}

function listensToAll(outbox: PageOutbox): void {
  for (const name of Object.keys(pageEvents)) outbox.listens(name as PageEventName);
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
  it('are bounded, whatever comes, those that wait for it too (P5)', () => {
    const { outbox, sent } = outboxWithLog();
    for (let seq = 0; seq < 10_000; seq++) {
      outbox.put('readings', readings(seq));
      outbox.put('archive-changed', { path: `/${seq}`, tour: false });
      outbox.put('notice', notice(`n-${seq}`));
    }
    expect(sent.length).toBeLessThan(12);
    // It wakes up and takes one after the other: of all that came a hundred notices had waited, the newest ones, and one snapshot.
    for (const { number } of sent) outbox.taken(number);
    const codes = sent.flatMap(({ name, event }) =>
      name === 'notice' ? [(event as PageEventOf<'notice'>).code] : [],
    );
    expect(codes).toEqual(['n-0', ...Array.from({ length: 100 }, (_, i) => `n-${9_900 + i}`)]);
    expect(sent.filter(({ name }) => name === 'archive-changed')).toHaveLength(2);
    expect(sent.length).toBeLessThan(120);
  });

  it('of snapshots only the newest goes when it takes the one before', () => {
    const { outbox, sent } = outboxWithLog();
    for (const path of ['/a', '/b', '/c']) outbox.put('archive-changed', { path, tour: false });
    outbox.taken(sent[0]?.number ?? 0);
    expect(sent.map(({ event }) => event)).toEqual([
      { path: '/a', tour: false },
      { path: '/c', tour: false },
    ]);
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
    expect((sent.at(-1)?.event as { missedFromSeq: number } | undefined)?.missedFromSeq).toBe(8);
  });

  it('does not carry a miss over into another pull', () => {
    const { outbox, sent } = outboxWithLog();
    for (let seq = 0; seq < 9; seq++) outbox.put('readings', readings(seq));
    for (const { number } of [...sent]) outbox.taken(number);
    outbox.put('readings', readings(0, null, 2));
    expect((sent.at(-1)?.event as { missedFromSeq: number | null } | undefined)?.missedFromSeq).toBeNull();
  });

  it('raw lines of several previews wait as one, in order and without a hole, as many as are shown', () => {
    const { outbox, sent } = outboxWithLog();
    const put = (from: number, count: number): void =>
      outbox.put('preview', {
        bytesWithoutLine: from,
        lines: Array.from({ length: count }, (_, i) => ({
          line: from + i,
          text: '',
          misfit: null,
          values: [],
        })),
      });
    const shown = (): number[] =>
      (sent.at(-1)?.event as PageEventOf<'preview'> | undefined)?.lines.map(({ line }) => line) ?? [];
    put(0, 2);
    put(2, 3);
    put(5, 1);
    expect(sent).toHaveLength(1);
    outbox.taken(sent[0]?.number ?? 0);
    expect(shown()).toEqual([2, 3, 4, 5]);
    for (let from = 6; from < 2_006; from += 50) put(from, 50);
    outbox.taken(sent[1]?.number ?? 0);
    expect([shown().length, shown()[0], shown().at(-1)]).toEqual([
      PREVIEW_LINES_MAX,
      2_006 - PREVIEW_LINES_MAX,
      2_005,
    ]);
    // The readout is opened anew.
    put(2_006, 1);
    put(0, 2);
    outbox.taken(sent[2]?.number ?? 0);
    expect(shown()).toEqual([0, 1]);
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
    outbox.put('archive-changed', { path: '/a', tour: false });
    outbox.put('archive-changed', { path: '/b', tour: false });
    const before = sent[0]?.number ?? 0;
    outbox.pageBegins();
    listensToAll(outbox);
    outbox.put('archive-changed', { path: '/c', tour: false });
    outbox.taken(before);
    expect(sent.map(({ event }) => event)).toEqual([
      { path: '/a', tour: false },
      { path: '/c', tour: false },
    ]);
  });

  const pressed = (sent: readonly Sent[]): string[] =>
    sent.map(({ event }) => (event as PageEventOf<'menu-command'>).command);

  it('is told what was pressed in the menu as soon as it listens, each command once', () => {
    const { outbox, sent } = outboxWithLog();
    outbox.pageBegins();
    for (const command of ['show-shortcuts', 'people', 'show-shortcuts'] as const)
      outbox.put('menu-command', { command });
    outbox.put('archive-changed', { path: '/asked for by the page itself', tour: false });
    expect(sent).toEqual([]);
    listensToAll(outbox);
    outbox.taken(sent[0]?.number ?? 0);
    outbox.taken(sent[1]?.number ?? 0);
    expect(pressed(sent)).toEqual(['show-shortcuts', 'people']);
  });

  it('is told a command that the page before did not take, but not one that it took while it went', () => {
    for (const taken of [false, true]) {
      const { outbox, sent } = outboxWithLog();
      outbox.put('menu-command', { command: 'people' });
      outbox.put('menu-command', { command: 'about' });
      outbox.pageBegins();
      if (taken) outbox.taken(sent[0]?.number ?? 0);
      listensToAll(outbox);
      outbox.taken(sent[1]?.number ?? 0);
      expect(pressed(sent.slice(1))).toEqual(taken ? ['about'] : ['people', 'about']);
    }
  });
});
