/** Seeds changed at random: bytes flipped, taken out, put in, repeated, cut off, and words that parsers trip over. */
import fc from 'fast-check';
import { place as at } from './places.ts';

const WORDS = [
  ...[
    '0',
    '-0',
    '1e309',
    '-1e-400',
    'NaN',
    'Infinity',
    '9007199254740993',
    '1'.repeat(400),
    '.',
    '-',
    '+',
    ',',
  ],
  ...[
    '\r',
    '\n',
    '\r\n',
    '\0',
    '\x02',
    '\x03',
    '\t',
    ' ',
    '"',
    "'",
    ';',
    '\u00b0',
    '\ufeff',
    '\u202e',
    '\ud800',
  ],
  ...[
    'null',
    'true',
    '[]',
    '{}',
    '[',
    '{',
    '}',
    '":',
    '__proto__',
    'constructor',
    '=1+1',
    '../',
    '<b>',
    '%s',
    '$&',
  ],
].map((word) => Buffer.from(word));
/** Changes of one seed: more of them leave nothing of it that a parser would go far with. */
const CHANGES_MAX = 6;
/** A case longer than this costs time and shows nothing new. */
const BYTES_MAX = 200_000;

type Change =
  | { readonly kind: 'set'; readonly at: number; readonly byte: number }
  | { readonly kind: 'flip'; readonly at: number; readonly bit: number }
  | { readonly kind: 'cut'; readonly at: number; readonly length: number }
  | { readonly kind: 'repeat'; readonly at: number; readonly length: number; readonly times: number }
  | { readonly kind: 'word'; readonly at: number; readonly word: number }
  | { readonly kind: 'end'; readonly at: number };

const length = fc.nat({ max: 40 });
const change: fc.Arbitrary<Change> = fc.oneof(
  fc.record({ kind: fc.constant('set' as const), at, byte: fc.nat({ max: 255 }) }),
  fc.record({ kind: fc.constant('flip' as const), at, bit: fc.nat({ max: 7 }) }),
  fc.record({ kind: fc.constant('cut' as const), at, length }),
  fc.record({ kind: fc.constant('repeat' as const), at, length, times: fc.nat({ max: 30 }) }),
  fc.record({ kind: fc.constant('word' as const), at, word: fc.nat({ max: WORDS.length - 1 }) }),
  fc.record({ kind: fc.constant('end' as const), at }),
);

/** Any of the seeds, changed up to CHANGES_MAX times. */
export function changedSeed(seeds: readonly Buffer[]): fc.Arbitrary<Buffer> {
  return fc
    .tuple(fc.nat({ max: seeds.length - 1 }), fc.array(change, { maxLength: CHANGES_MAX }))
    .map(([seed, changes]) => changes.reduce(changed, seeds[seed] ?? Buffer.alloc(0)));
}

function changed(bytes: Buffer, change: Change): Buffer {
  const place = Math.floor(change.at * bytes.length);
  const [before, after] = [bytes.subarray(0, place), bytes.subarray(place)];
  switch (change.kind) {
    case 'set':
    case 'flip': {
      const copy = Buffer.from(bytes);
      if (place < copy.length)
        copy[place] = change.kind === 'set' ? change.byte : (copy[place] ?? 0) ^ (1 << change.bit);
      return copy;
    }
    case 'cut':
      return Buffer.concat([before, after.subarray(change.length)]);
    case 'repeat': {
      const part = after.subarray(0, change.length);
      if (bytes.length + part.length * change.times > BYTES_MAX) return bytes;
      return Buffer.concat([before, ...Array.from({ length: change.times }, () => part), after]);
    }
    case 'word':
      return Buffer.concat([before, WORDS[change.word] ?? Buffer.alloc(0), after]);
    case 'end':
      return Buffer.from(before);
  }
}
