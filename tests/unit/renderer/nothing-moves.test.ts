/**
 * What may move in the window (issue 7: "nothing blinks but what needs an answer", "reduced motion"): the sources name
 * all of it. What runs in the real window is looked at in every view by `tests/app/window-looked-over.test.ts`.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const FOLDER = new URL('../../../renderer/', import.meta.url);
const NAMES = readdirSync(FOLDER, { recursive: true, encoding: 'utf8' });
const filesEnding = (end: RegExp): { name: string; text: string }[] =>
  NAMES.filter((name) => end.test(name)).map((name) => ({
    name,
    text: readFileSync(new URL(name, FOLDER), 'utf8').replaceAll(/\/\*.*?\*\//gs, ''),
  }));
const STYLES = filesEnding(/\.(css|html)$/);

/** Every declaration that begins so, with the media it stands in. */
function declarations(property: RegExp): string[] {
  return STYLES.flatMap(({ name, text }) =>
    [...text.matchAll(/([\w-]+)\s*:\s*([^;{}]+);/g)]
      .filter(([, its = '']) => property.test(its))
      .map(({ 0: whole, index }) => {
        const media = /@media ([^{]+)\{(?:[^{}]*\{[^{}]*\})*[^{}]*\{[^{}]*$/.exec(text.slice(0, index))?.[1];
        return `${name}${media === undefined ? '' : ` ${media.trim()}`}: ${whole.replaceAll(/\s+/g, ' ')}`;
      }),
  );
}

describe('what moves in the window', () => {
  const STILL = 'design/base.css (prefers-reduced-motion: reduce)';

  it('is the filling of a button that is held alone; in steps for who wants nothing to move, since it tells how long', () => {
    expect(declarations(/^(transition|animation)/)).toEqual([
      `${STILL}: animation: none !important;`,
      `${STILL}: transition: none !important;`,
      'design/button.css: transition: transform var(--hold-ms) linear;',
      'design/button.css (prefers-reduced-motion: reduce): transition: transform var(--hold-ms) steps(4) !important;',
    ]);
  });

  it('does not blink: no style sheet has a course of its own, and nothing scrolls by itself', () => {
    for (const { name, text } of STYLES)
      expect(text, name).not.toMatch(/@keyframes|@starting-style|<(blink|marquee|animate)/);
    expect(declarations(/^scroll-behavior$/)).toEqual([`${STILL}: scroll-behavior: auto !important;`]);
  });

  it('is not begun by a script', () => {
    for (const { name, text } of filesEnding(/\.tsx?$/))
      expect(text, name).not.toMatch(
        /\.animate\(|behavior: 'smooth'|<(animate|animateTransform|marquee)\b|startViewTransition/,
      );
  });
});
