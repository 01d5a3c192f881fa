/** Every alarm as the recorder composes it, an open record behind it or not: in Spanish no English is left in it. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { archiveFaultOf, damagedFault } from '../../../core/archive/archive-fault.ts';
import { WRITTEN_THINGS } from '../../../electron/exports/whole-bytes.ts';
import { targetFaultOf } from '../../../core/archive/target-fault.ts';
import type { TransportListener } from '../../../drivers/transport.ts';
import type { LiveReadout } from '../../../electron/recorder/live-readout.ts';
import { LoadWatch } from '../../../electron/recorder/load-watch.ts';
import { NoticeBoard } from '../../../electron/recorder/notice-board.ts';
import type { Recording } from '../../../electron/recorder/recording.ts';
import { changeView } from '../../../renderer/store/view-settings.ts';
import { told } from '../../../renderer/words/told.ts';
import { PROFILE } from '../archive/made-archive.ts';
import { loadProfile, nowUs, playedReadout } from '../recorder/played-readout.ts';

/** Words of which an English sentence has one, and no Spanish one has. */
const ENGLISH =
  /\b(the|is|are|and|of|from|with|that|but|was|been|this|load|check|kept|recording|overload)\b/i;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['hrtime', 'Date', 'setTimeout', 'clearTimeout'] });
  changeView({ language: 'es' });
});
afterEach(() => {
  vi.useRealTimers();
  changeView({ language: 'en' });
});

interface Silent {
  readonly instrument: 0 | 1;
  readonly record: { readonly bytesWithoutLine: number } | null;
  readonly before: (far: TransportListener, live: LiveReadout) => void;
}

/** What stands after ten seconds in which no reading came. */
async function told10s({ instrument, record, before }: Silent): Promise<string[]> {
  const notices = new NoticeBoard(
    () => undefined,
    () => Date.now(),
  );
  const open =
    record === null
      ? null
      : ({
          start: { startedUs: 0 },
          bytesWithoutLine: () => record.bytesWithoutLine,
          sourceOpened: () => undefined,
          sourceEnded: () => undefined,
          noteNow: () => undefined,
          beginGap: () => undefined,
          lastReadingUs: () => null,
        } as unknown as Recording);
  const { live, far } = await playedReadout({ profile: loadProfile(), notices, instrument, record: open });
  vi.advanceTimersByTime(9_000);
  before(far, live);
  vi.advanceTimersByTime(1_000);
  live.watchSilence(nowUs());
  return notices.standing.map(({ sentence }) => sentence);
}

const NOTHING_BEFORE = () => undefined;
const MISFIT = {
  bytes: new Uint8Array(),
  outcome: { kind: 'misfit', reason: 'no-match', sentence: '' },
} as unknown as Parameters<LiveReadout['takeLine']>[0];

describe('an alarm in Spanish', () => {
  it.each([0, 1] as const)('of instrument %i that is silent has no English in it', async (instrument) => {
    const silent: Silent[] = [null, { bytesWithoutLine: 0 }, { bytesWithoutLine: 40 }].flatMap((record) => [
      { instrument, record, before: NOTHING_BEFORE },
      {
        instrument,
        record,
        before: (_far, live) => {
          for (let line = 0; line < 9; line++) live.takeLine(MISFIT);
        },
      },
      {
        instrument,
        record,
        before: (far) =>
          far.onFault({
            code: 'no-answer',
            sentence:
              'The readout on /dev/ttyUSB0 does not answer its request; check the cable and the request in the readout profile.',
          }),
      },
    ]);
    const sentences = (await Promise.all(silent.map(told10s))).flat();
    // Silence, lines that fit nothing and a request without an answer, each with and without a record; bytes twice.
    expect(new Set(sentences).size).toBeGreaterThanOrEqual(7);
    for (const sentence of sentences) expect(told(sentence), sentence).not.toMatch(ENGLISH);
    for (const sentence of sentences) expect(told(sentence)).not.toMatch(/\bde el\b/i);
  });

  it('keeps what it says of the open record', () => {
    expect(
      told(
        'There is no fresh reading from the readout; see that it is switched on and sends. Recording stays open.',
      ),
    ).toBe(
      'No llega ninguna lectura nueva del indicador; vea que esté encendido y envíe. El registro sigue abierto.',
    );
  });

  it.each(['SQLITE_FULL', 'SQLITE_IOERR', 'SQLITE_CORRUPT', 'EACCES', 'SQLITE_BUSY'])(
    'of an archive that fails with %s in mid-pull has no English in it',
    (code) => {
      const fault = archiveFaultOf(Object.assign(new Error(code), { code }), '/a/pulls.gaugemark', 'record');
      const sentence = `${fault?.message ?? ''} Recording goes on in memory and in the spool; nothing is lost so far.`;
      expect(told(sentence)).toMatch(/; hasta ahora no se ha perdido nada\.$/);
      // Commands and what is named by its words stay as they are.
      expect(told(sentence).replace(/gaugemark archive [^.]*/g, '')).not.toMatch(ENGLISH);
    },
  );

  it('of a load that is never usable has no English in it', () => {
    for (const status of ['overload', 'blank', 'error-word', 'malformed'] as const) {
      const notices = new NoticeBoard(
        () => undefined,
        () => 0,
      );
      const watch = new LoadWatch(PROFILE, notices);
      const shown = { mantissa: 1, exponent: 0, unit: 'lbf', status } as const;
      for (let line = 0; line < 30; line++)
        watch.note({ chunkSeq: 0, lineIndex: 0, channels: [shown, shown], status: 'ok' });
      const sentence = notices.standing[0]?.sentence ?? '';
      expect(told(sentence), sentence).toMatch(/^El indicador envía/);
      expect(told(sentence)).not.toMatch(ENGLISH);
    }
  });

  it('of a damaged archive keeps the command that sets it aside', () => {
    const sentence = told(damagedFault('/a/b.gaugemark', 'row 3').message);
    expect(sentence).toContain('gaugemark archive set-aside --archive "/a/b.gaugemark"');
    expect(sentence).not.toMatch(/Nothing|renames/);
  });
});

it.each(['export', 'backup', ...WRITTEN_THINGS])(
  'what keeps an %s from being written has no English left in it either',
  (what) => {
    const codes = ['ENOSPC', 'EROFS', 'ENOENT', 'ENOTCONN'];
    const paths = ['/tmp/x.csv', '/nirgends/x.csv'];
    for (const isBegun of [false, true])
      for (const path of paths)
        for (const code of codes) {
          const fault = targetFaultOf(Object.assign(new Error(code), { code }), path, what, isBegun);
          if (!(fault instanceof Error)) throw new Error(`${code} gave no sentence`);
          const sentence = told(fault.message);
          expect(sentence).toContain(path);
          expect(sentence.replaceAll(path, '')).not.toMatch(ENGLISH);
        }
  },
);
