/** Issue 7: each button of each question, and that by which a form is left, says what happens to the data, in both languages. */
import { readFileSync, readdirSync } from 'node:fs';
import ts from 'typescript';
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
  common,
  instruments,
  notices,
  set,
  trail,
}: typeof en): readonly (readonly [string, string])[][] {
  const leave = [common.leave, common.leaveMeans] as const;
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

describe.each([
  ['English', en, 'nothing typed is kept'],
  ['Spanish', es, 'nada de lo escrito se guarda'],
])('the button by which a form is left, in %s', (_, { common, learn }, says) => {
  it.each([
    [common.leave, common.leaveTyped],
    [learn.drop, learn.dropTyped],
  ])('says more where something is typed: %s / %s', (blank, typed) => {
    expect(typed).toMatch(new RegExp(`: ${says}$`));
    expect(blank).not.toContain(says);
  });
});

const ROOT = new URL('../../../renderer/', import.meta.url).pathname;
/** Those that hold what is typed. */
const FORMS = readdirSync(ROOT, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.tsx'))
  .map((name) => ({ name, text: readFileSync(`${ROOT}${name}`, 'utf8') }))
  .filter(({ text }) => /held-typing\.ts'|\bletGoOf/.test(text));

const NAME_OF_FUNCTION = /^(?:\(\) => (?:void )?)?(\w+)(?:\(\))?$/;

/** What a press does: the handler itself, or the function of that name in the same file. */
function doneBy(file: ts.SourceFile, handler: string): string {
  const called = NAME_OF_FUNCTION.exec(handler)?.[1];
  if (called === undefined) return handler;
  let done = '';
  const look = (node: ts.Node): void => {
    if (ts.isVariableDeclaration(node) && node.name.getText(file) === called)
      done = node.initializer?.getText(file) ?? '';
    ts.forEachChild(node, look);
  };
  look(file);
  return done;
}

/** Lets go of what is typed, and has kept nothing before that. */
const letsGo = (done: string): boolean => /\bletGo\w*\(/.test(done.split(/\bawait\b/)[0] ?? '');

/** With what stands within it. */
const elementOf = (opening: ts.Node): ts.Node => (ts.isJsxOpeningElement(opening) ? opening.parent : opening);

/** What a button is drawn from, where pressing it lets go of what is typed. */
function leavingButtons({ name, text }: (typeof FORMS)[number]): string[] {
  const file = ts.createSourceFile(name, text, ts.ScriptTarget.Latest, true, ts.ScriptKind.TSX);
  const found: string[] = [];
  const look = (node: ts.Node): void => {
    const [handler, drawn] =
      ts.isPropertyAssignment(node) && node.name.getText(file) === 'onPress'
        ? [node.initializer, node.parent]
        : ts.isJsxAttribute(node) &&
            node.name.getText(file) === 'onPress' &&
            node.initializer !== undefined &&
            ts.isJsxExpression(node.initializer)
          ? [node.initializer.expression, elementOf(node.parent.parent)]
          : [];
    if (handler !== undefined && drawn !== undefined && letsGo(doneBy(file, handler.getText(file))))
      found.push(drawn.getText(file));
    ts.forEachChild(node, look);
  };
  look(file);
  return found;
}

it('no form is left by a button that does not say that what is typed goes with it', () => {
  const buttons = FORMS.flatMap((form) => leavingButtons(form).map((drawn) => [form.name, drawn] as const));
  expect(buttons.length).toBeGreaterThanOrEqual(9);
  for (const [name, drawn] of buttons)
    expect(drawn, name).toMatch(/<LeaveForm\b|\bleaveWords\(|\bdropTyped\b/);
});
