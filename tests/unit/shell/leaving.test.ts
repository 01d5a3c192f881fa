import { describe, expect, it } from 'vitest';
import { SESSION_STATES } from '../../../core/contract/session.ts';
import { closeAnswer, closeQuestion, isRecording } from '../../../electron/main/close-question.ts';
import { fileNameFrom } from '../../../electron/main/file-name.ts';
import { speak } from '../../../electron/main/words/shell-words.ts';

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
    expect(closeAnswer(closeQuestion().defaultId ?? -1)).toBe('keep');
    expect(closeAnswer(closeQuestion().cancelId ?? -1)).toBe('keep');
    expect(closeAnswer(99)).toBe('keep');
  });

  it('says for each button what happens to the data', () => {
    for (const language of ['en', 'es'] as const) {
      speak(language);
      const { detail, buttons } = closeQuestion();
      expect(buttons).toHaveLength(3);
      for (const button of buttons ?? []) expect(detail).toContain(`${button}:`);
    }
    speak('en');
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
