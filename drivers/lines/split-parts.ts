/** A line read from left to right, part by part, without looking back. */
import type { LineFormatOf, ReadoutProfile } from '../../core/contract/readout-profile.ts';
import { ClockScanner } from './clock-grammar.ts';
import { NumberScanner } from './number-grammar.ts';
import type { LineSplitter } from './line-splitter.ts';

/** Takes a part of the text from a place on: index behind it, or −1 where the part is not there. */
type Take = (text: string, at: number) => number;

/** Time is linear in the line: each part looks at each character once. */
export function splitParts(format: LineFormatOf<'parts'>, profile: ReadoutProfile): LineSplitter {
  const scanners = { number: new NumberScanner(profile), clock: new ClockScanner(profile) };
  const words = [...profile.words.overload, ...profile.words.blank, ...profile.words.error].map((word) =>
    word.toLowerCase(),
  );
  const steps = format.parts.map((part): { readonly take: Take; readonly isField: boolean } => {
    switch (part.part) {
      case 'text':
        return {
          take: (text, at) => (text.startsWith(part.text, at) ? at + part.text.length : -1),
          isField: false,
        };
      case 'blanks':
        return {
          take: (text, at) => {
            const behind = skipBlanks(text, at);
            return behind > at || part.optional ? behind : -1;
          },
          isField: false,
        };
      case 'number':
        return { take: (text, at) => takeNumberOrWord(text, at, scanners, words), isField: true };
      case 'word':
        return {
          take: (text, at) => {
            const behind = takeLetters(text, at, part.length);
            return behind > at || part.optional ? behind : -1;
          },
          isField: true,
        };
      case 'rest':
        return { take: (text) => text.length, isField: true };
    }
  });
  return (text) => {
    const fields: string[] = [];
    let at = 0;
    for (const { take, isField } of steps) {
      const behind = take(text, at);
      if (behind === -1) return null;
      if (isField) fields.push(text.slice(at, behind));
      at = behind;
    }
    return skipBlanks(text, at) === text.length ? fields : null;
  };
}

function skipBlanks(text: string, start: number): number {
  let at = start;
  while (at < text.length && (text.charCodeAt(at) === 32 || text.charCodeAt(at) === 9)) at++;
  return at;
}

const DIGIT = /\d/;
const FILLER = /[-–_^*=~.?]/;
const LETTER = /[A-Za-zÀ-ÿ%µμ°/²³^ε_]/;
/** Marks of inches and feet: words of their own, never the end of one (it may be a closing quotation mark). */
const MARK = /["']/;

function takeLetters(text: string, start: number, length: number | undefined): number {
  let at = start;
  const end = length === undefined ? text.length : Math.min(text.length, start + length);
  const belongs = MARK.test(text.charAt(start)) ? MARK : LETTER;
  while (at < end && belongs.test(text.charAt(at))) at++;
  return length !== undefined && at - start !== length ? start : at;
}

/** A number, hh:mm:ss, or what stands in its place: a word of the profile, a run of dashes, letters. */
function takeNumberOrWord(
  text: string,
  at: number,
  { number, clock }: { readonly number: NumberScanner; readonly clock: ClockScanner },
  words: readonly string[],
): number {
  const lower = text.slice(at, at + 40).toLowerCase();
  const word = words.find((known) => lower.startsWith(known));
  if (word !== undefined) return at + word.length;
  let behind = number.scan(text, at, text.length);
  if (behind !== -1) {
    if (text.charAt(behind) !== ':' || !DIGIT.test(text.charAt(behind + 1))) return behind;
    return clock.scan(text, at, text.length);
  }
  behind = at;
  while (behind < text.length && FILLER.test(text.charAt(behind))) behind++;
  if (behind > at + 1) return behind;
  const signLength = /[+-]/.test(text.charAt(at)) ? 1 : 0;
  const letters = takeLetters(text, at + signLength, undefined);
  return letters > at + signLength ? letters : -1;
}
