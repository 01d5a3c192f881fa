import { expect, it } from 'vitest';
import type { ChannelStatus, Reading } from '../../../core/contract/reading.ts';
import { LoadWatch } from '../../../electron/recorder/load-watch.ts';
import { NoticeBoard } from '../../../electron/recorder/notice-board.ts';
import { PROFILE } from '../archive/made-archive.ts';

function watch() {
  const notices = new NoticeBoard(
    () => undefined,
    () => 0,
  );
  const load = new LoadWatch(PROFILE, notices);
  const line = (status: ChannelStatus): void => {
    const shown = { mantissa: 1, exponent: 0, unit: 'lbf', status } as const;
    const reading: Reading = {
      chunkSeq: 0,
      lineIndex: 0,
      channels: [shown, { ...shown, unit: 'in', status: 'ok' }],
      status: 'ok',
    };
    load.note(reading);
  };
  const standing = () => notices.standing.map(({ code }) => code);
  return { line, standing, sentence: () => notices.standing[0]?.sentence };
}

it('tells a readout that goes on sending and marks every load as an error, and takes it back at the first good one', () => {
  const { line, standing, sentence } = watch();
  for (let i = 0; i < 30; i++) line('error-word');
  expect(standing()).toEqual(['load-not-usable']);
  expect(sentence()).toMatch(/every load as an error.*no pull starts/);
  line('ok');
  expect(standing()).toEqual([]);
});

it('says nothing of single bad loads between good ones', () => {
  const { line, standing } = watch();
  for (let i = 0; i < 60; i++) line(i % 15 === 0 ? 'ok' : 'overload');
  expect(standing()).toEqual([]);
});
