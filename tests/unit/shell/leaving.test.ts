import { describe, expect, it } from 'vitest';
import { SESSION_STATES } from '../../../core/contract/session.ts';
import { CLOSE_QUESTION, closeAnswer, isRecording } from '../../../electron/main/close-question.ts';
import { fileNameFrom } from '../../../electron/main/file-name.ts';

describe('leaving while a pull is recorded', () => {
  it('is asked about in every state in which readings are kept, and in no other', () => {
    expect(SESSION_STATES.filter((state) => isRecording(state))).toEqual([
      'ready',
      'pulling',
      'broken',
      'stopped',
    ]);
    expect(isRecording(null)).toBe(false);
  });

  it('keeps recording when Enter, Escape or the closing cross is meant', () => {
    expect(closeAnswer(CLOSE_QUESTION.defaultId ?? -1)).toBe('keep');
    expect(closeAnswer(CLOSE_QUESTION.cancelId ?? -1)).toBe('keep');
    expect(closeAnswer(99)).toBe('keep');
  });

  it('says for each button what happens to the data', () => {
    for (const words of ['Keep recording:', 'Close the window:', 'End the record and close:'])
      expect(CLOSE_QUESTION.detail).toContain(words);
  });
});

describe('a file name made from a name', () => {
  it.each([
    ['T-1 weld 3.csv', 'T-1 weld 3.csv'],
    ['../../etc/passwd', 'passwd'],
    ['..\\..\\boot.ini', 'boot.ini'],
    ['<script>alert(1)</script>', 'script-'],
    ['.hidden', 'hidden'],
    ['a\u0000b', 'a-b'],
    ['..', 'gaugemark'],
  ])('%j becomes %j', (name, file) => expect(fileNameFrom(name)).toBe(file));
});
