import { describe, expect, it } from 'vitest';
import { SESSION_STATES } from '../../../core/contract/session.ts';
import {
  closeAnswer,
  closeQuestion,
  isRecording,
  losesTyping,
  stopsWork,
  typedQuestion,
  workQuestion,
} from '../../../electron/main/close-question.ts';
import { fileNameFrom } from '../../../electron/main/file-name.ts';
import { WorkUnderWay } from '../../../electron/main/work-under-way.ts';
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

interface Later {
  readonly promise: Promise<string>;
  readonly resolve: (value: string) => void;
  readonly reject: (cause: Error) => void;
}

/** An answer that comes when the test gives it. */
function later(): Later {
  let [resolve, reject]: [Later['resolve'], Later['reject']] = [() => undefined, () => undefined];
  const promise = new Promise<string>((done, failed) => {
    [resolve, reject] = [done, failed];
  });
  return { promise, resolve, reject };
}

describe('leaving while something long is written', () => {
  it('is asked about until it is answered, also where it fails; a check or a question is not', async () => {
    const work = new WorkUnderWay();
    const merge = later();
    const backup = later();
    const check = later();
    const merged = work.watch('archive.merge', () => merge.promise);
    const backedUp = work.watch('window.back-up', () => backup.promise);
    const checked = work.watch('archive.check', () => check.promise);
    expect(work.isAny).toBe(true);
    merge.resolve('merged');
    expect(await merged).toBe('merged');
    expect(work.isAny).toBe(true);
    const over = work.over();
    backup.reject(new Error('the stick was pulled'));
    await expect(backedUp).rejects.toThrow('the stick was pulled');
    await over;
    expect(work.isAny).toBe(false);
    check.resolve('checked');
    expect(await checked).toBe('checked');
  });

  it('is asked about while the page does many short things in a row, and not waited for', async () => {
    const work = new WorkUnderWay();
    work.pageIsAtWork = true;
    expect(work.isAny).toBe(true);
    // What is left is stopped with its page.
    await work.over();
    work.pageIsAtWork = false;
    expect(work.isAny).toBe(false);
  });

  it('lets it finish when Enter, Escape or the closing cross is meant', () => {
    expect(stopsWork(workQuestion().defaultId ?? -1)).toBe(false);
    expect(stopsWork(workQuestion().cancelId ?? -1)).toBe(false);
    expect(stopsWork(99)).toBe(false);
  });

  it('says for each button what happens to the data', () => {
    for (const language of ['en', 'es'] as const) {
      speak(language);
      const { detail, buttons } = workQuestion();
      expect(buttons).toHaveLength(2);
      for (const button of buttons ?? []) expect(detail).toContain(`${button}:`);
    }
    speak('en');
  });
});

describe('leaving while something is typed', () => {
  it('goes back when Enter, Escape or the closing cross is meant, and says what happens to what is typed', () => {
    for (const language of ['en', 'es'] as const) {
      speak(language);
      const asked = (['closing', 'goingOver'] as const).map((by) => typedQuestion(['note', 'person'], by));
      // What is given up is said by the way on that was pressed.
      expect(new Set(asked.map(({ buttons }) => buttons?.[1])).size).toBe(2);
      for (const { message, detail, buttons, defaultId, cancelId } of asked) {
        expect(losesTyping(defaultId ?? 1)).toBe(false);
        expect(losesTyping(cancelId ?? 1)).toBe(false);
        expect(losesTyping(99)).toBe(false);
        expect(message).toContain('note · person');
        expect(buttons).toHaveLength(2);
        for (const button of buttons ?? []) expect(detail).toContain(`${button}:`);
      }
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
