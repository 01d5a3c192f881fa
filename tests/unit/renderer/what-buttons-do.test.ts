/** Issue 7: each button of each question says what happens to the data, in both languages. */
import { describe, expect, it } from 'vitest';
import { EN_SHELL } from '../../../electron/main/words/en-shell.ts';
import { ES_SHELL } from '../../../electron/main/words/es-shell.ts';
import { en } from '../../../renderer/words/en.ts';
import { es } from '../../../renderer/words/es.ts';

interface Asked {
  readonly detail: string;
  readonly buttons: readonly string[];
}
const isAsked = (one: unknown): one is Asked =>
  typeof one === 'object' && one !== null && 'buttons' in one && 'detail' in one;

describe.each([
  ['English', EN_SHELL],
  ['Spanish', ES_SHELL],
])('a question of the window’s process, in %s', (_, shell) => {
  const questions = Object.entries<unknown>(shell).flatMap(([name, one]) =>
    isAsked(one) ? [[name, one] as const] : [],
  );
  it('is one of several', () => expect(questions.length).toBeGreaterThanOrEqual(4));
  it.each(questions)('%s has a paragraph for each of its buttons, which begins with it', (_name, asked) => {
    const paragraphs = asked.detail.split('\n\n');
    for (const button of asked.buttons)
      expect(
        paragraphs.filter((one) => one.startsWith(`${button}: `)),
        button,
      ).toHaveLength(1);
  });
});

/** Those of the page: the words of a button, and what it does. */
function questionsOf({
  instruments,
  notices,
  set,
  trail,
}: typeof en): readonly (readonly [string, string])[][] {
  const leave = [set.cancel, set.cancelMeans] as const;
  return [
    Object.values(instruments.ask.buttons).map(({ label, means }) => [label, means] as const),
    [
      [notices.setAsideConfirm, notices.setAsideMeans],
      [notices.setAsideNot, notices.setAsideNotMeans],
    ],
    [[set.voidDialog.act, set.voidDialog.means], leave],
    [[set.retestDialog.act, set.retestDialog.means], leave],
    [[set.overrideDialog.act, set.overrideDialog.means], leave],
    [[instruments.retire, instruments.retireMeans], leave],
    [[instruments.takeBack, instruments.takeBackMeans], leave],
    [[trail.voidAct, trail.voidMeans], leave],
    [[trail.withdrawAct, trail.withdrawMeans], leave],
    [[trail.dayAct, trail.dayMeans], leave],
  ];
}

describe.each([
  ['English', en],
  ['Spanish', es],
])('a question of the page, in %s', (_, words) => {
  it.each(
    questionsOf(words).map((buttons) => [buttons.map(([label]) => label).join(' / '), buttons] as const),
  )('%s says of each button what it does, and of no two the same', (_name, buttons) => {
    expect(buttons.length).toBeGreaterThan(1);
    expect(new Set(buttons.map(([label]) => label)).size).toBe(buttons.length);
    expect(new Set(buttons.map(([, means]) => means)).size).toBe(buttons.length);
    for (const [, means] of buttons) expect(means).toMatch(/^\p{Lu}.{20,}\.$/u);
  });
});
