/** What a terminal is told of the recorder's notices: the same sentence never twice. */
import { describe, expect, it } from 'vitest';
import type { Notice } from '../../../core/contract/notice.ts';
import { NoticeTeller } from '../../../electron/command-line/notice-teller.ts';

const SILENT: Notice = {
  severity: 'alarm',
  code: 'no-fresh-reading',
  sentence: 'There is no fresh reading from the readout; see that it sends. Recording stays open.',
  since: 0,
  over: false,
};

function toldOf(...notices: readonly Notice[]): string[] {
  const told: string[] = [];
  const teller = new NoticeTeller((line) => told.push(line));
  for (const notice of notices) teller.take(notice);
  return told;
}

describe('a terminal', () => {
  it('is told a trouble in full once, that it is over, and in short when it comes again', () => {
    const over = { ...SILENT, over: true };
    expect(toldOf(SILENT, over, SILENT, over, SILENT)).toEqual([
      SILENT.sentence,
      'Readings arrive again.',
      'Again: There is no fresh reading from the readout.',
      'Readings arrive again.',
      'Again: There is no fresh reading from the readout.',
    ]);
  });

  it('is told a trouble that has become another one, in full', () => {
    const worse = { ...SILENT, sentence: 'The readout has gone. It is being looked for.' };
    expect(toldOf(SILENT, worse)).toEqual([SILENT.sentence, worse.sentence]);
  });

  it('is told once what stands, though it comes as news and in the list of what stands', () => {
    expect(toldOf(SILENT, SILENT)).toEqual([SILENT.sentence]);
  });

  it('hears nothing of what it was not told, and nothing of mere notes', () => {
    expect(toldOf({ ...SILENT, over: true }, { ...SILENT, severity: 'note' })).toEqual([]);
  });
});
