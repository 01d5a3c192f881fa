/**
 * An archive's file changed where a database looks first: fields of its header, heads of pages, pointers to cells, heads
 * of records, words of the schema, whole pages; and single bytes anywhere. Offsets: SQLite database file format,
 * sections 1.3 (file header), 1.6 (page header) and 2.6 (schema).
 */
import fc from 'fast-check';
import { place } from './places.ts';

const CHANGES_MAX = 4;
/** Offset and length of each field of the header. */
const HEADER_FIELDS = [
  ...([
    [16, 2],
    [18, 1],
    [19, 1],
    [20, 1],
    [21, 1],
    [22, 1],
    [23, 1],
    [24, 4],
    [28, 4],
  ] as const),
  ...([
    [32, 4],
    [36, 4],
    [40, 4],
    [44, 4],
    [48, 4],
    [52, 4],
    [56, 4],
    [60, 4],
    [64, 4],
  ] as const),
  ...([
    [68, 4],
    [72, 4],
    [92, 4],
    [96, 4],
  ] as const),
] as const;
/** Offset and length of each field in the head of a page. */
const PAGE_FIELDS = [
  [0, 1],
  [1, 2],
  [3, 2],
  [5, 2],
  [7, 1],
  [8, 4],
] as const;
const FILE_HEADER_BYTES = 100;
const PAGE_SIZE_AT = 16;
const CELL_COUNT_AT = 3;
const LEAF_HEAD_BYTES = 8;
/** Of the same length where they change places, or padded with spaces. */
const SCHEMA_WORDS = [
  ...['CREATE TABLE', 'CREATE INDEX', 'CREATE TRIGGER', 'CREATE VIEW', 'TEXT', 'BLOB', 'INTEGER', 'REAL'],
  ...['STRICT', 'WITHOUT ROWID', 'NOT NULL', 'PRIMARY KEY', 'UNIQUE', 'CHECK', 'REFERENCES', 'RAISE(ABORT'],
  ...[
    'pull_id',
    'specimen',
    'reading_block',
    'search_entry',
    'user_version',
    'sqlite_',
    'fts5',
    '(',
    ')',
    ',',
  ],
];
const NUMBERS = [
  0, 1, 2, 3, 5, 10, 12, 13, 14, 127, 128, 255, 512, 4096, 0x7fff, 0xffff, 0x7fffffff, 0xffffffff,
];

const number = fc.oneof(fc.constantFrom(...NUMBERS), fc.nat({ max: 0xffffffff }));
const cell = fc.nat({ max: 9 });

type Change =
  | { readonly kind: 'header'; readonly field: number; readonly number: number }
  | { readonly kind: 'page-head'; readonly page: number; readonly field: number; readonly number: number }
  | { readonly kind: 'pointer'; readonly page: number; readonly cell: number; readonly number: number }
  | {
      readonly kind: 'record';
      readonly page: number;
      readonly cell: number;
      readonly at: number;
      readonly number: number;
    }
  | { readonly kind: 'byte'; readonly at: number; readonly number: number }
  | { readonly kind: 'word'; readonly word: number; readonly by: number; readonly at: number }
  | { readonly kind: 'page'; readonly page: number; readonly by: number }
  | { readonly kind: 'end'; readonly at: number };

const change: fc.Arbitrary<Change> = fc.oneof(
  fc.record({
    kind: fc.constant('header' as const),
    field: fc.nat({ max: HEADER_FIELDS.length - 1 }),
    number,
  }),
  fc.record({
    kind: fc.constant('page-head' as const),
    page: place,
    field: fc.nat({ max: PAGE_FIELDS.length - 1 }),
    number,
  }),
  fc.record({ kind: fc.constant('pointer' as const), page: place, cell, number }),
  fc.record({ kind: fc.constant('record' as const), page: place, cell, at: fc.nat({ max: 20 }), number }),
  fc.record({ kind: fc.constant('byte' as const), at: place, number }),
  fc.record({
    kind: fc.constant('word' as const),
    word: fc.nat({ max: SCHEMA_WORDS.length - 1 }),
    by: fc.nat({ max: SCHEMA_WORDS.length - 1 }),
    at: place,
  }),
  fc.record({ kind: fc.constant('page' as const), page: place, by: place }),
  fc.record({ kind: fc.constant('end' as const), at: place }),
);

/**
 * One of the archives with one to CHANGES_MAX changes; the seeds themselves stay as they are. Places are drawn evenly: with
 * the library's liking for the ends of a range a third of all cases were the empty file.
 */
export function changedArchive(seeds: readonly Buffer[]): fc.Arbitrary<Buffer> {
  return fc.noBias(
    fc
      .tuple(fc.nat({ max: seeds.length - 1 }), fc.array(change, { minLength: 1, maxLength: CHANGES_MAX }))
      .map(([seed, changes]) =>
        changes.reduce<Buffer>(
          (bytes, its) => changed(bytes, its),
          Buffer.from(seeds[seed] ?? Buffer.alloc(0)),
        ),
      ),
  );
}

/** The head of a page begins behind the file's header on the first one. */
function pageHead(
  bytes: Buffer,
  at: number,
): { readonly start: number; readonly head: number; readonly size: number } {
  const told = bytes.length > PAGE_SIZE_AT + 1 ? bytes.readUInt16BE(PAGE_SIZE_AT) : 0;
  const size = told >= 512 ? told : 4096;
  const page = Math.floor(at * Math.max(1, Math.floor(bytes.length / size)));
  const start = page * size;
  return { start, head: page === 0 ? FILE_HEADER_BYTES : start, size };
}

/** Writes what fits; beyond the end nothing is changed. */
function put(bytes: Buffer, at: number, length: number, value: number): Buffer {
  for (let i = 0; i < length; i++)
    if (at + i < bytes.length) bytes[at + i] = (value >>> (8 * (length - 1 - i))) & 0xff;
  return bytes;
}

function cellAt(
  bytes: Buffer,
  page: number,
  cell: number,
): { readonly pointer: number; readonly cell: number } {
  const { start, head } = pageHead(bytes, page);
  const count = head + CELL_COUNT_AT + 1 < bytes.length ? bytes.readUInt16BE(head + CELL_COUNT_AT) : 0;
  const pointer = head + LEAF_HEAD_BYTES + 2 * (count === 0 ? 0 : cell % count);
  return { pointer, cell: start + (pointer + 1 < bytes.length ? bytes.readUInt16BE(pointer) : 0) };
}

function changed(bytes: Buffer, change: Change): Buffer {
  switch (change.kind) {
    case 'header': {
      const [at, length] = HEADER_FIELDS[change.field] ?? [0, 1];
      return put(bytes, at, length, change.number);
    }
    case 'page-head': {
      const [at, length] = PAGE_FIELDS[change.field] ?? [0, 1];
      return put(bytes, pageHead(bytes, change.page).head + at, length, change.number);
    }
    case 'pointer':
      return put(bytes, cellAt(bytes, change.page, change.cell).pointer, 2, change.number);
    case 'record':
      return put(bytes, cellAt(bytes, change.page, change.cell).cell + change.at, 1, change.number);
    case 'byte':
      return put(bytes, Math.floor(change.at * bytes.length), 1, change.number);
    case 'word': {
      const [word, by] = [SCHEMA_WORDS[change.word] ?? '', SCHEMA_WORDS[change.by] ?? ''];
      const from = Math.floor(change.at * bytes.length);
      const found = bytes.indexOf(word, from, 'latin1');
      if (found >= 0) bytes.write(by.padEnd(word.length).slice(0, word.length), found, 'latin1');
      return bytes;
    }
    case 'page': {
      const [to, from] = [pageHead(bytes, change.page), pageHead(bytes, change.by)];
      bytes.copyWithin(to.start, from.start, Math.min(from.start + from.size, bytes.length));
      return bytes;
    }
    case 'end':
      return bytes.subarray(0, Math.floor(change.at * bytes.length));
  }
}
