/** What the program's text says when something is refused or has gone wrong: every sentence of it, with its place. */
import { readFileSync, readdirSync } from 'node:fs';
import ts from 'typescript';

export interface SaidInSources {
  /** `room/file.ts:line`. */
  readonly at: string;
  /** With {@link PUT_IN} for each thing that is put in. */
  readonly sentence: string;
}

/** In the place of what is put in: a figure, so that it is taken for no word. */
export const PUT_IN = '77';

/** Whose words reach the page: each as its `sentence`, or as the message that is answered. */
const REFUSALS = ['RequestRefused', 'ArchiveRefusal', 'ArchiveFault', 'SourceFaultError', 'FileNotWritten'];
/** Fewer are a code or a unit. */
const WORDS_MIN = 3;
const CODE = /^[a-z0-9-]+$/;

/** They hold what is looked for. */
const TABLES = 'core/words/';

const root = new URL('../../../', import.meta.url).pathname;

function sourcesOf(room: string): ts.SourceFile[] {
  return readdirSync(`${root}${room}`, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name) && !`${room}/${name}`.startsWith(TABLES))
    .map((name) => {
      const path = `${room}/${name}`;
      return ts.createSourceFile(path, readFileSync(`${root}${path}`, 'utf8'), ts.ScriptTarget.Latest, true);
    });
}

type Named = ReadonlyMap<string, ts.Expression>;

/** Every text that an expression can come out as; what is no text of ours is {@link PUT_IN}. */
function texts(one: ts.Expression, named: Named): readonly string[] {
  if (ts.isStringLiteralLike(one)) return [one.text];
  if (ts.isParenthesizedExpression(one) || ts.isAsExpression(one) || ts.isSatisfiesExpression(one))
    return texts(one.expression, named);
  if (ts.isConditionalExpression(one)) return [...texts(one.whenTrue, named), ...texts(one.whenFalse, named)];
  if (ts.isBinaryExpression(one)) {
    const { kind } = one.operatorToken;
    if (kind === ts.SyntaxKind.PlusToken) return joined([texts(one.left, named), texts(one.right, named)]);
    if (kind === ts.SyntaxKind.QuestionQuestionToken || kind === ts.SyntaxKind.BarBarToken)
      return [...texts(one.left, named), ...texts(one.right, named)].filter((text) => text !== '');
  }
  if (ts.isTemplateExpression(one))
    return joined([
      [one.head.text],
      ...one.templateSpans.flatMap(({ expression, literal }) => [texts(expression, named), [literal.text]]),
    ]);
  const counts = isCall(one, 'counted') ? one.arguments[1] : undefined;
  if (counts !== undefined && ts.isStringLiteralLike(counts)) return [`${PUT_IN} ${counts.text}s`];
  const name = ts.isIdentifier(one)
    ? one.text
    : (ts.isElementAccessExpression(one) || ts.isPropertyAccessExpression(one)) &&
        ts.isIdentifier(one.expression)
      ? one.expression.text
      : undefined;
  const meant = name === undefined ? undefined : named.get(name);
  // Not once more within itself.
  if (meant !== undefined) return texts(meant, new Map([...named].filter(([other]) => other !== name)));
  if (ts.isObjectLiteralExpression(one))
    return one.properties.flatMap((entry) =>
      ts.isPropertyAssignment(entry) ? texts(entry.initializer, named) : [PUT_IN],
    );
  return [PUT_IN];
}

const isCall = (node: ts.Node, of: string): node is ts.CallExpression =>
  ts.isCallExpression(node) && ts.isIdentifier(node.expression) && node.expression.text === of;

function joined(parts: readonly (readonly string[])[]): readonly string[] {
  return parts.reduce<readonly string[]>(
    (before, part) => before.flatMap((one) => part.map((next) => one + next)),
    [''],
  );
}

function everyNode(file: ts.SourceFile, look: (node: ts.Node) => void): void {
  const visit = (node: ts.Node): void => {
    look(node);
    ts.forEachChild(node, visit);
  };
  visit(file);
}

/** Constants of a file that are text, so that a sentence that stands under a name is read too. */
function textsUnderNames(file: ts.SourceFile): Named {
  const named = new Map<string, ts.Expression>();
  everyNode(file, (node) => {
    if (!ts.isVariableDeclaration(node) || !ts.isIdentifier(node.name) || node.initializer === undefined)
      return;
    if (texts(node.initializer, new Map()).some((text) => text !== PUT_IN))
      named.set(node.name.text, node.initializer);
  });
  return named;
}

/** A file's functions with a parameter `sentence`: where it stands among the others. */
function takers(file: ts.SourceFile): ReadonlyMap<string, number> {
  const places = new Map<string, number>();
  everyNode(file, (node) => {
    if (!ts.isFunctionLike(node)) return;
    const place = node.parameters.findIndex(({ name }) => ts.isIdentifier(name) && name.text === 'sentence');
    const name = nameOf(node);
    if (place >= 0 && name !== undefined) places.set(name, place);
  });
  return places;
}

function nameOf(node: ts.SignatureDeclaration): string | undefined {
  if (node.name !== undefined && ts.isIdentifier(node.name)) return node.name.text;
  return ts.isVariableDeclaration(node.parent) && ts.isIdentifier(node.parent.name)
    ? node.parent.name.text
    : undefined;
}

/** A function that only makes sentences is called so. */
const MAKES = /(?:Sentence|Sentences|Refusal|InWords|AFault)$/;

/** What the functions that make sentences come out with, and what stands in tables that are called so. */
function made(node: ts.Node): ts.Expression | undefined {
  if (ts.isReturnStatement(node)) {
    const within = ts.findAncestor(node, ts.isFunctionLike);
    return within !== undefined && MAKES.test(nameOf(within) ?? '') ? node.expression : undefined;
  }
  if (ts.isArrowFunction(node) && !ts.isBlock(node.body))
    return MAKES.test(nameOf(node) ?? '') ? node.body : undefined;
  return undefined;
}

export function saidInSources(rooms: readonly string[]): readonly SaidInSources[] {
  const files = rooms.flatMap(sourcesOf);
  const said: SaidInSources[] = [];
  for (const file of files) {
    const named = textsUnderNames(file);
    const taking = takers(file);
    const add = (node: ts.Expression | undefined): void => {
      if (node === undefined) return;
      const line = file.getLineAndCharacterOfPosition(node.getStart()).line + 1;
      for (const sentence of texts(node, named))
        if (
          !CODE.test(sentence) &&
          (sentence.replaceAll(PUT_IN, '').match(/\p{L}+/gu) ?? []).length >= WORDS_MIN
        )
          said.push({ at: `${file.fileName}:${String(line)}`, sentence });
    };
    everyNode(file, (node) => {
      if (ts.isPropertyAssignment(node) && ts.isIdentifier(node.name) && node.name.text === 'sentence')
        add(node.initializer);
      if (
        ts.isNewExpression(node) &&
        ts.isIdentifier(node.expression) &&
        REFUSALS.includes(node.expression.text)
      )
        for (const given of node.arguments ?? []) add(given);
      if (ts.isCallExpression(node) && ts.isIdentifier(node.expression)) {
        const place = taking.get(node.expression.text);
        if (place !== undefined) add(node.arguments[place]);
      }
      add(made(node));
    });
  }
  return [...new Map(said.map((one) => [`${one.at} ${one.sentence}`, one])).values()];
}

/** What the check and a merge are told by: parameters, properties and lists of these names hold what they found. */
const FINDINGS = {
  calls: new Map([
    ['say', [0, 2]],
    ['add', [0, 2]],
    ['historyAddition', [0]],
    ['onceSaid', [0]],
  ]),
  properties: ['words', 'conflict', 'conflicts', 'found', 'name'],
  lists: ['found'],
  errors: ['BlockDamagedError', 'RowDamagedError'],
} as const;

/** Everything that a check of the archive, and the plan of a merge, may say of a thing, names of things too. */
export function foundInSources(isRead: (path: string) => boolean): readonly SaidInSources[] {
  const said: SaidInSources[] = [];
  for (const file of sourcesOf('core').filter(({ fileName }) => isRead(fileName))) {
    const named = textsUnderNames(file);
    const add = (node: ts.Expression | undefined): void => {
      if (node === undefined) return;
      if (ts.isArrayLiteralExpression(node)) {
        for (const one of node.elements) add(one);
        return;
      }
      const line = file.getLineAndCharacterOfPosition(node.getStart()).line + 1;
      for (const sentence of texts(node, named))
        // A text of nothing but what is put in is told where that is made.
        if (/\p{Ll}{3}/u.test(sentence)) said.push({ at: `${file.fileName}:${String(line)}`, sentence });
    };
    everyNode(file, (node) => {
      if (
        ts.isPropertyAssignment(node) &&
        ts.isIdentifier(node.name) &&
        FINDINGS.properties.some((one) => one === node.name.getText())
      )
        add(node.initializer);
      if (
        ts.isNewExpression(node) &&
        ts.isIdentifier(node.expression) &&
        FINDINGS.errors.some((one) => one === node.expression.getText())
      )
        add(node.arguments?.[0]);
      if (!ts.isCallExpression(node)) return;
      const { expression } = node;
      if (ts.isIdentifier(expression))
        for (const at of FINDINGS.calls.get(expression.text) ?? []) add(node.arguments[at]);
      if (
        ts.isPropertyAccessExpression(expression) &&
        expression.name.text === 'push' &&
        FINDINGS.lists.some((one) => one === expression.expression.getText())
      )
        for (const given of node.arguments) add(given);
    });
  }
  return [...new Map(said.map((one) => [one.sentence, one])).values()];
}

/** A text that stands by itself, not within another one. */
const isWhole = (node: ts.Node): node is ts.Expression =>
  (ts.isStringLiteralLike(node) || ts.isTemplateExpression(node)) &&
  ts.findAncestor(node.parent, (above) => ts.isTemplateExpression(above) || ts.isImportDeclaration(above)) ===
    undefined;

/** Every text of these rooms that is a whole sentence, or the clause of one, whatever it is given to. */
export function wholeSentencesIn(rooms: readonly string[]): readonly SaidInSources[] {
  const said: SaidInSources[] = [];
  for (const file of rooms.flatMap(sourcesOf)) {
    const named = textsUnderNames(file);
    everyNode(file, (node) => {
      if (!isWhole(node) || ts.findAncestor(node, ts.isThrowStatement) !== undefined) return;
      const isClause = ts.isPropertyAssignment(node.parent) && node.parent.name.getText() === 'clause';
      const line = file.getLineAndCharacterOfPosition(node.getStart()).line + 1;
      for (const sentence of texts(node, named))
        if (
          (isClause || /^[\p{Lu}\d].*\.$/su.test(sentence)) &&
          (sentence.replaceAll(PUT_IN, '').match(/\p{L}+/gu) ?? []).length >= WORDS_MIN
        )
          said.push({ at: `${file.fileName}:${String(line)}`, sentence });
    });
  }
  return said;
}
