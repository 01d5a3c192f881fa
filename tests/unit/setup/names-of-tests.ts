/** The names of the tests in a file, as its code has them: a comment names none, and a skipped one does not count. */
import { readFileSync } from 'node:fs';
import ts from 'typescript';

const NAMING = new Set(['describe', 'it', 'test']);
const kept = new Map<string, string[]>();

/** "describe > it", for every test of a file under `tests/`; of a name in a template the text between what is put in. */
export function namesOfTests(file: string): readonly string[] {
  const known = kept.get(file);
  if (known !== undefined) return known;
  const text = readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8');
  const names: string[] = [];
  const walk = (node: ts.Node, above: readonly string[]): void => {
    const own = ts.isCallExpression(node) ? nameGivenBy(node) : null;
    const path = own === null ? above : [...above, own.name];
    if (own !== null && own.by !== 'describe') names.push(path.join(' > '));
    ts.forEachChild(node, (child) => walk(child, path));
  };
  walk(ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true), []);
  kept.set(file, names);
  return names;
}

/** Which test or group of tests a call makes, null for every other call. `it.each(rows)('name', …)` makes one, too. */
function nameGivenBy(call: ts.CallExpression): { by: string; name: string } | null {
  const [first] = call.arguments;
  if (first === undefined || call.arguments.length < 2) return null;
  if (!ts.isStringLiteralLike(first) && !ts.isTemplateExpression(first)) return null;
  let callee: ts.Expression = call.expression;
  while (!ts.isIdentifier(callee)) {
    if (ts.isPropertyAccessExpression(callee) && ['skip', 'todo'].includes(callee.name.text)) return null;
    if (ts.isPropertyAccessExpression(callee) || ts.isCallExpression(callee)) callee = callee.expression;
    else return null;
  }
  if (!NAMING.has(callee.text)) return null;
  const name = ts.isStringLiteralLike(first)
    ? first.text
    : [first.head.text, ...first.templateSpans.map(({ literal }) => literal.text)].join('…');
  return { by: callee.text, name };
}

/** The tests of a file with this in their name that name the row too, groups around them included. */
export const testsNaming = (row: string, file: string, test: string): string[] =>
  namesOfTests(file).filter((name) => name.includes(test) && new RegExp(`\\b${row}\\b`).test(name));
