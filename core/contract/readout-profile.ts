/**
 * The readout profile: everything needed to turn the bytes of one readout into readings, as a file that people
 * can exchange. Four subjects kept apart, so that each can change without the others:
 * how to talk (serial, controlLines, mode), where a line ends (framing), where the fields of a line are (format),
 * and what the fields mean (channels, words, status).
 */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { QUANTITIES } from '../curve/curve.ts';
import { DECIMAL_TEXT_LENGTH_MAX, exactFromDecimal } from '../quantity/exact.ts';
import { type Dimension, UNITS, type UnitSymbol } from '../quantity/units.ts';
import { LINE_BYTES_MAX, NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../limits.ts';

export const READOUT_PROFILE_SCHEMA = 'gaugemark.readout-profile/1';

/** Channels of one readout; more than a dozen numbers in a line is a table, not a readout. */
export const CHANNELS_MAX = 16;
/** Fields of one line: LINE_BYTES_MAX holds no more that mean anything. */
export const FIELDS_MAX = 64;
/** Bytes of a terminator, a delimiter, a request: longer ones are a mistake in the file. */
export const SHORT_BYTES_MAX = 64;
/** Lines of one record: load, extension, time and a state by turns. */
export const LINES_PER_RECORD_MAX = 4;
/** Words that a readout shows instead of a number; no readout has more. */
export const WORDS_MAX = 40;

/** Bytes written as text, one character a byte (latin-1); control bytes as JSON escapes ("\u0002"). */
const bytesText = z
  .string()
  .min(1)
  .max(SHORT_BYTES_MAX)
  // eslint-disable-next-line no-control-regex -- every byte value is allowed here, and nothing above a byte.
  .regex(/^[\u0000-\u00ff]+$/, 'only characters that are one byte (up to U+00FF)');

const fieldName = z.string().min(1).max(NAME_LENGTH_MAX);

/** An exact decimal as text: "1", "-0.25", "4.44822e3". */
const decimalText = z
  .string()
  .max(DECIMAL_TEXT_LENGTH_MAX)
  .refine((text) => exactFromDecimal(text) !== null, 'not a plain decimal number such as "0.25"');

const unitSymbol = z.enum(Object.keys(UNITS) as [UnitSymbol, ...UnitSymbol[]]);

// --- how to talk -----------------------------------------------------------------------------------------------

export const serialSettings = atFirstUse(() =>
  z.strictObject({
    baudRate: z.int().min(50).max(4_000_000),
    dataBits: z.union([z.literal(7), z.literal(8)]).default(8),
    parity: z.enum(['none', 'even', 'odd', 'mark', 'space']).default('none'),
    stopBits: z.union([z.literal(1), z.literal(2)]).default(1),
    /** Off unless chosen: software flow control swallows the bytes 0x11 and 0x13. */
    flowControl: z.enum(['none', 'hardware', 'software']).default('none'),
  }),
);
export type SerialSettings = z.infer<typeof serialSettings>;

/** What the control lines are set to after opening; left alone where absent (some readouts reset on DTR). */
export const controlLines = z.strictObject({ dtr: z.boolean().optional(), rts: z.boolean().optional() });

export const readoutMode = atFirstUse(() =>
  z.discriminatedUnion('kind', [
    /** The readout sends by itself. */
    z.strictObject({ kind: z.literal('continuous') }),
    /** It answers when asked; never two requests in flight. */
    z.strictObject({
      kind: z.literal('polled'),
      request: bytesText.optional(),
      intervalMs: z.int().min(1).max(600_000),
      timeoutMs: z.int().min(10).max(60_000),
    }),
    /** One line a press of its print key: a record of peaks, not a curve. */
    z.strictObject({ kind: z.literal('print-key') }),
  ]),
);

// --- where a line ends -----------------------------------------------------------------------------------------

export const framing = atFirstUse(() =>
  z.strictObject({
    /** `any`: CR, LF and CRLF each end a line, and CRLF makes no empty one. */
    terminator: z.union([z.enum(['any', 'cr', 'lf', 'crlf']), z.strictObject({ custom: bytesText })]),
    /** Bytes before the text of each line that belong to the framing (STX); a line without them does not fit. */
    leading: bytesText.optional(),
    /** Bytes after the text of each line, before the terminator (ETX). */
    trailing: bytesText.optional(),
    /**
     * So many lines make one record, joined by LF: `begins` is how its first line begins, or `ends` how its last one ends.
     */
    lines: z
      .strictObject({
        count: z.int().min(2).max(LINES_PER_RECORD_MAX),
        begins: bytesText.optional(),
        ends: bytesText.optional(),
      })
      .refine(
        ({ begins, ends }) => begins !== undefined || ends !== undefined,
        'say how the first line of a record begins, or how the last one ends',
      )
      .optional(),
  }),
);
export type Framing = z.infer<typeof framing>;

/** A check that the line carries at its end. Bytes from `from` (skipped) to `marker` (not included) are summed. */
export const lineCheck = atFirstUse(() =>
  z.strictObject({
    kind: z.enum([
      'xor',
      'sum',
      'sum16',
      'sum-twos-complement',
      'crc16-modbus',
      'crc16-arc',
      'crc16-ccitt',
      'crc16-xmodem',
      'crc8',
      'crc8-maxim',
    ]),
    /** What stands between the text and the check: "*", " ", "," or nothing. */
    marker: z.string().max(8),
    /** How the check is written. `byte`: as one byte (two for a CRC-16, high byte first) that is no text. */
    written: z.enum(['hex-upper', 'hex-lower', 'hex-any', 'decimal', 'decimal-modulo-100', 'byte']),
    /** Characters at the start of the text that the check leaves out ("$" in many). */
    skipped: z.int().min(0).max(16).default(0),
    /** Of a check of two bytes: whether the low byte is written first. */
    lowByteFirst: z.boolean().optional(),
    /** Whether the marker itself is summed too. */
    markerSummed: z.boolean().default(false),
    /** Whether the framing's leading bytes are summed too. */
    leadingSummed: z.boolean().default(false),
  }),
);
export type LineCheck = z.infer<typeof lineCheck>;

// --- where the fields are --------------------------------------------------------------------------------------

const delimitedFormat = atFirstUse(() =>
  z.strictObject({
    kind: z.literal('delimited'),
    /** One or several characters: ",", ";", "\t", " ", " | ". */
    delimiter: bytesText,
    /** A run of delimiters counts as one (padding with blanks). Never the default: a lost field would shift the rest. */
    mergeRepeated: z.boolean().default(false),
    /** Names of all fields in order; a line with another number of fields does not fit. */
    fields: z.array(fieldName).min(1).max(FIELDS_MAX),
  }),
);

const fixedColumnsFormat = atFirstUse(() =>
  z.strictObject({
    kind: z.literal('fixed-columns'),
    /** `start` counts characters from 0. */
    columns: z
      .array(
        z.strictObject({
          name: fieldName,
          start: z.int().min(0).max(LINE_BYTES_MAX),
          length: z.int().min(1).max(LINE_BYTES_MAX),
        }),
      )
      .min(1)
      .max(FIELDS_MAX),
    /** A line shorter or longer than this does not fit (trailing blanks are not counted against `max`). */
    lineLength: z.strictObject({ min: z.int().min(1), max: z.int().max(LINE_BYTES_MAX) }).optional(),
  }),
);

const labelledFormat = atFirstUse(() =>
  z.strictObject({
    kind: z.literal('labelled'),
    /** Each label is searched as written ("L=", "X:"); the value reaches to the next label or the end. */
    fields: z
      .array(z.strictObject({ name: fieldName, label: z.string().min(1).max(NAME_LENGTH_MAX) }))
      .min(1)
      .max(FIELDS_MAX),
    /** Characters that may stand between a value and the next label; they are cut off the value. */
    between: z.string().max(8).default(' \t,;|'),
    /** Whether the labels always come in the order listed. */
    ordered: z.boolean().default(true),
  }),
);

/**
 * A line read from left to right, part by part, without looking back: status letters before the number, the unit
 * behind it, fixed text between. Each part takes as much as it can.
 */
const partsFormat = atFirstUse(() =>
  z.strictObject({
    kind: z.literal('parts'),
    parts: z
      .array(
        z.discriminatedUnion('part', [
          z.strictObject({ part: z.literal('text'), text: z.string().min(1).max(NAME_LENGTH_MAX) }),
          z.strictObject({ part: z.literal('blanks'), optional: z.boolean().default(false) }),
          /** A number with its sign, or a run of dashes, or one of the profile's words in its place. */
          z.strictObject({ part: z.literal('number'), name: fieldName }),
          /** Letters (and %, µ, ", /, ², ^): a unit or a status word; `length` where it is always the same. */
          z.strictObject({
            part: z.literal('word'),
            name: fieldName,
            length: z.int().min(1).max(40).optional(),
            optional: z.boolean().default(false),
          }),
          /** Everything to the end of the line. */
          z.strictObject({ part: z.literal('rest'), name: fieldName }),
        ]),
      )
      .min(1)
      .max(FIELDS_MAX),
  }),
);

/** Modbus: registers instead of lines. A "line" is the register bytes of one reply, high byte first. */
const registersFormat = atFirstUse(() =>
  z.strictObject({
    kind: z.literal('registers'),
    registers: z
      .array(
        z.strictObject({
          name: fieldName,
          address: z.int().min(0).max(65_535),
          space: z.enum(['holding', 'input']).default('holding'),
          type: z.enum(['int16', 'uint16', 'int32', 'uint32', 'float32']),
          wordOrder: z.enum(['high-first', 'low-first']).default('high-first'),
        }),
      )
      .min(1)
      .max(FIELDS_MAX),
  }),
);

export const lineFormat = atFirstUse(() =>
  z.discriminatedUnion('kind', [
    delimitedFormat,
    fixedColumnsFormat,
    labelledFormat,
    partsFormat,
    registersFormat,
  ]),
);
export type LineFormat = z.infer<typeof lineFormat>;
export type LineFormatOf<Kind extends LineFormat['kind']> = Extract<LineFormat, { kind: Kind }>;

// --- what the fields mean --------------------------------------------------------------------------------------

export const CHANNEL_QUANTITIES = [...QUANTITIES, 'other'] as const;
export type ProfileQuantity = (typeof CHANNEL_QUANTITIES)[number];

const DIMENSION_OF: Readonly<Record<ProfileQuantity, Dimension | null>> = {
  time: 'time',
  force: 'force',
  extension: 'length',
  travel: 'length',
  stress: 'stress',
  strain: 'strain',
  other: null,
};

export const channelUnit = atFirstUse(() =>
  z.discriminatedUnion('kind', [
    /** The readout does not say its unit; it is this one. */
    z.strictObject({ kind: z.literal('fixed'), unit: unitSymbol }),
    /** The unit stands in the line: behind the number, or in the field named. A unit other than `expected` is taken and marked. */
    z.strictObject({
      kind: z.literal('in-line'),
      expected: unitSymbol,
      field: fieldName.optional(),
      /** How this readout writes its units, where it differs from the usual spellings. */
      spellings: z.record(z.string().min(1).max(20), unitSymbol).optional(),
    }),
  ]),
);

export const channel = atFirstUse(() =>
  z.strictObject({
    /** Name of the field in the format. */
    field: fieldName,
    quantity: z.enum(CHANNEL_QUANTITIES),
    unit: channelUnit,
    /** Value = (shown number × scale + offset), times −1 where inverted, in the channel's unit. */
    scale: decimalText.default('1'),
    offset: decimalText.default('0'),
    /** `inverted` where the readout shows tension, or lengthening, as negative. */
    sign: z.enum(['as-shown', 'inverted']).default('as-shown'),
    /** Smallest and largest value believed, in the channel's unit after scale, offset and sign. */
    range: z.strictObject({ min: decimalText, max: decimalText }).optional(),
    /** `clock`: hh:mm:ss or mm:ss with decimals, taken as seconds. */
    written: z.enum(['decimal', 'clock']).default('decimal'),
    /** The readout's own peak memory rather than the value of the moment. */
    peak: z.boolean().default(false),
  }),
);
export type ReadoutChannel = z.infer<typeof channel>;

const word = z.string().min(1).max(40);
const wordList = z.array(word).max(WORDS_MAX).default([]);

/** Words in the place of a number. Compared without regard to case, blanks around them cut. */
export const statusWords = z.strictObject({ overload: wordList, blank: wordList, error: wordList });

/** A field that says how the line is to be taken ("ST", "US", "OL"). A word in none of the lists makes the line an error. */
export const statusField = z.strictObject({
  field: fieldName,
  good: wordList,
  overload: wordList,
  error: wordList,
  /** Takes any word that is in no list as good: for fields whose words are not all known. */
  othersAreGood: z.boolean().default(false),
});

export const readoutProfile = atFirstUse(() =>
  z
    .strictObject({
      schema: z.literal(READOUT_PROFILE_SCHEMA),
      name: z.string().trim().min(1).max(NAME_LENGTH_MAX),
      notes: z.string().max(TEXT_LENGTH_MAX).optional(),
      serial: serialSettings.optional(),
      controlLines: controlLines.optional(),
      mode: readoutMode.default({ kind: 'continuous' }),
      framing: framing.default({ terminator: 'any' }),
      check: lineCheck.optional(),
      format: lineFormat,
      decimalSign: z.enum(['.', ',']).default('.'),
      /** Sign between groups of three digits, where the readout writes one. */
      groupSign: z.enum([',', '.', ' ', "'"]).optional(),
      /** Whether "(12.3)" is −12.3, as in bookkeeping. Elsewhere such a field is no number. */
      minusInParentheses: z.boolean().optional(),
      channels: z.array(channel).min(1).max(CHANNELS_MAX),
      words: statusWords.default({ overload: [], blank: [], error: [] }),
      status: z.array(statusField).max(4).default([]),
      /**
       * A counter in the line that goes up by one: a jump shows that lines were lost. `modulus` is the number at which it
       * begins anew with 0; absent where that is not known, and going back to 0 or 1 is then no jump.
       */
      sequence: z
        .strictObject({ field: fieldName, modulus: z.int().min(2).max(4_294_967_296).optional() })
        .optional(),
      /** Lines that begin like this carry no reading (headings, remarks). */
      ignoredLines: z.array(z.string().min(1).max(NAME_LENGTH_MAX)).max(WORDS_MAX).default([]),
      /** Sent where the operator presses zero, and never otherwise. */
      zeroCommand: bytesText.optional(),
      /** Readings a second that it is expected to send. */
      rateHz: z.number().positive().max(100_000).optional(),
    })
    .superRefine((profile, context) => {
      const names = fieldNamesOf(profile.format);
      const issue = (path: (string | number)[], message: string): void => {
        context.addIssue({ code: 'custom', path, message });
      };
      const repeated = names.find((name, index) => names.indexOf(name) !== index);
      if (repeated !== undefined) issue(['format'], `two fields are named "${repeated}"`);
      const mustExist = (name: string, path: (string | number)[]): void => {
        if (!names.includes(name))
          issue(path, `the format has no field "${name}"; it has ${names.join(', ')}`);
      };
      profile.channels.forEach((entry, index) => {
        mustExist(entry.field, ['channels', index, 'field']);
        if (entry.unit.kind === 'in-line' && entry.unit.field !== undefined)
          mustExist(entry.unit.field, ['channels', index, 'unit', 'field']);
        const unit = entry.unit.kind === 'fixed' ? entry.unit.unit : entry.unit.expected;
        const dimension = DIMENSION_OF[entry.quantity];
        if (dimension !== null && UNITS[unit].dimension !== dimension)
          issue(['channels', index, 'unit'], `${unit} is no unit of ${entry.quantity}`);
        if (entry.range !== undefined && compareDecimalText(entry.range.min, entry.range.max) >= 0)
          issue(['channels', index, 'range'], 'the smallest value must lie below the largest');
        if (compareDecimalText(entry.scale, '0') === 0)
          issue(['channels', index, 'scale'], 'a scale of zero would make every reading the same');
      });
      profile.status.forEach((entry, index) => mustExist(entry.field, ['status', index, 'field']));
      if (profile.sequence !== undefined) mustExist(profile.sequence.field, ['sequence', 'field']);
      if (profile.groupSign === profile.decimalSign)
        issue(['groupSign'], 'the decimal sign and the sign between thousands must differ');
      if (profile.format.kind === 'fixed-columns') {
        const sorted = [...profile.format.columns].sort((a, b) => a.start - b.start);
        sorted.forEach((column, index) => {
          const next = sorted[index + 1];
          if (next !== undefined && column.start + column.length > next.start)
            issue(['format', 'columns'], `the columns "${column.name}" and "${next.name}" overlap`);
        });
      }
      if (profile.format.kind === 'registers' && profile.mode.kind !== 'polled')
        issue(['mode'], 'registers are read by asking: the mode must be polled');
      if (
        profile.mode.kind === 'polled' &&
        profile.mode.request === undefined &&
        profile.format.kind !== 'registers'
      )
        issue(['mode', 'request'], 'a polled readout needs the request that it answers to');
    }),
);

/** A profile as checked, with every default filled in. */
export type ReadoutProfile = z.output<typeof readoutProfile>;
/** A profile as it stands in a file. */
export type ReadoutProfileFile = z.input<typeof readoutProfile>;

/** Names of the fields that a format yields, in order. */
export function fieldNamesOf(format: LineFormat): string[] {
  switch (format.kind) {
    case 'delimited':
      return format.fields;
    case 'fixed-columns':
      return format.columns.map((column) => column.name);
    case 'labelled':
      return format.fields.map((field) => field.name);
    case 'parts':
      return format.parts.flatMap((part) => ('name' in part ? [part.name] : []));
    case 'registers':
      return format.registers.map((register) => register.name);
  }
}

/** The unit that a channel is expected to come in. */
export function expectedUnitOf(entry: ReadoutChannel): UnitSymbol {
  return entry.unit.kind === 'fixed' ? entry.unit.unit : entry.unit.expected;
}

function compareDecimalText(a: string, b: string): number {
  const left = exactFromDecimal(a);
  const right = exactFromDecimal(b);
  return left === null || right === null ? Number.NaN : left.compare(right);
}
