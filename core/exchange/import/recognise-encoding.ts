/** Which text encoding the head of a file is in, or what it is where it isn't text at all. */
import type { ImportFault } from './import-fault.ts';
import type { TextEncoding } from './import-plan.ts';

export type EncodingOutcome =
  | { readonly ok: true; readonly encoding: TextEncoding; readonly evidence: string }
  | { readonly ok: false; readonly fault: ImportFault };

interface Signature {
  readonly bytes: readonly number[];
  readonly what: string;
  readonly act: string;
}

const AS_TEXT = 'open it in the spreadsheet program and save the sheet as CSV (UTF-8)';
/** First bytes of what people rename to .csv. The numbers are the formats' published signatures. */
const SIGNATURES: readonly Signature[] = [
  { bytes: [0x50, 0x4b, 0x03, 0x04], what: 'a spreadsheet workbook or another zip archive', act: AS_TEXT },
  {
    bytes: [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1],
    what: 'a spreadsheet of the older binary kind',
    act: AS_TEXT,
  },
  { bytes: [0x1f, 0x8b], what: 'gzip-compressed', act: 'unpack it and give the text file inside' },
  {
    bytes: [0x25, 0x50, 0x44, 0x46],
    what: 'a PDF document',
    act: 'export the readings as delimited text instead',
  },
  {
    bytes: [0x89, 0x48, 0x44, 0x46],
    what: 'an HDF5 file',
    act: 'export the readings as delimited text instead',
  },
  {
    bytes: [0x43, 0x44, 0x46, 0x01],
    what: 'a netCDF file',
    act: 'export the readings as delimited text instead',
  },
  {
    // "SQLite format 3" and a zero byte.
    bytes: [0x53, 0x51, 0x4c, 0x69, 0x74, 0x65, 0x20, 0x66, 0x6f, 0x72, 0x6d, 0x61, 0x74, 0x20, 0x33, 0x00],
    what: 'a database',
    act: 'if it is an archive of this program, merge it instead of importing it',
  },
];

/** Of the zero bytes this share must lie on one side, and this share of that side must be zero. */
const UTF16_ZERO_SHARE = 0.3;

/** Looks at the first bytes of a file (some kB are enough). An empty head is a fault. */
export function recogniseEncoding(head: Uint8Array): EncodingOutcome {
  const fault = (code: string, sentence: string): EncodingOutcome => ({
    ok: false,
    fault: { code, sentence },
  });
  if (head.length === 0)
    return fault('import-empty', 'The file is empty; give a file with a header and readings.');
  const signature = SIGNATURES.find(({ bytes }) => bytes.every((byte, i) => head[i] === byte));
  if (signature !== undefined)
    return fault(
      'import-not-text',
      `The file is ${signature.what}, whatever its name says; ${signature.act}.`,
    );
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf)
    return { ok: true, encoding: 'utf-8', evidence: 'UTF-8 by its byte order mark' };
  if (head[0] === 0xff && head[1] === 0xfe)
    return { ok: true, encoding: 'utf-16le', evidence: 'UTF-16 (little end first) by its byte order mark' };
  if (head[0] === 0xfe && head[1] === 0xff)
    return { ok: true, encoding: 'utf-16be', evidence: 'UTF-16 (big end first) by its byte order mark' };
  if (head.includes(0)) {
    const encoding = utf16WithoutMark(head);
    return encoding === null
      ? fault(
          'import-not-text',
          'The file is not text (it holds zero bytes); give delimited text, best in UTF-8.',
        )
      : {
          ok: true,
          encoding,
          evidence: 'UTF-16 without a byte order mark, by the zero byte beside each letter',
        };
  }
  if (isUtf8(head)) return { ok: true, encoding: 'utf-8', evidence: 'valid UTF-8' };
  return {
    ok: true,
    encoding: 'windows-1252',
    evidence: 'not valid UTF-8, so read as Latin-1 (Windows-1252); check the letters beyond A to Z',
  };
}

function utf16WithoutMark(head: Uint8Array): TextEncoding | null {
  let even = 0;
  let odd = 0;
  for (const [i, byte] of head.entries()) {
    if (byte !== 0) continue;
    if (i % 2 === 0) even++;
    else odd++;
  }
  const side = head.length / 2;
  if (odd > side * UTF16_ZERO_SHARE && even === 0) return 'utf-16le';
  if (even > side * UTF16_ZERO_SHARE && odd === 0) return 'utf-16be';
  return null;
}

function isUtf8(head: Uint8Array): boolean {
  try {
    // `stream` lets the head end in the middle of a letter.
    new TextDecoder('utf-8', { fatal: true }).decode(head, { stream: true });
    return true;
  } catch {
    return false;
  }
}
