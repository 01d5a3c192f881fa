/** From the bytes of one opening to readings: assembles lines, checks them, splits them, gives them meaning. */
import { type ReadoutProfile, fieldNamesOf } from '../../core/contract/readout-profile.ts';
import { LINES_BEFORE_SYNC_MAX } from '../../core/limits.ts';
import type { UnitSymbol } from '../../core/quantity/units.ts';
import {
  type ShownValue,
  MISFIT_REASONS,
  type MisfitReason,
  type ParsedLine,
  type ReadingStatus,
  type ReadoutCounts,
  type ReadoutParser,
} from '../reading.ts';
import { channelMeaning } from './channel-meaning.ts';
import { type AssembledLine, LineAssembler } from './line-assembler.ts';
import { LineGrouper } from './line-grouper.ts';
import { lineChecker } from './line-check.ts';
import { beginningIsMarked, lineSplitter } from './split-line.ts';
import { keyOf } from './status-words.ts';

/**
 * Bytes that come this long after opening are the beginning of a line: within a line the bytes follow each other
 * (at 300 baud one takes 33 ms). Bytes that come sooner may be the end of a line whose beginning was missed.
 */
export const QUIET_BEFORE_LINE_MS = 50;

type LineFormatProfile = ReadoutProfile & {
  readonly format: Exclude<ReadoutProfile['format'], { kind: 'registers' }>;
};

export interface OpeningFacts {
  /** When the source was opened, on the clock of the chunks; absent where it gives its bytes from a line's beginning. */
  readonly openedUs?: number;
}

export class LineParser implements ReadoutParser {
  readonly #assembler: LineAssembler;
  /** Null where each line is a record of its own. */
  readonly #grouper: LineGrouper | null;
  readonly #profile: LineFormatProfile;
  readonly #split: ReturnType<typeof lineSplitter>;
  readonly #check: ReturnType<typeof lineChecker> | null;
  readonly #channels: readonly {
    readonly field: number;
    readonly unitField: number;
    readonly isTime: boolean;
    readonly isForce: boolean;
    readonly mean: ReturnType<typeof channelMeaning>;
  }[];
  readonly #statuses: readonly {
    readonly field: number;
    readonly words: ReadonlyMap<string, ReadingStatus>;
    readonly others: ReadingStatus;
  }[];
  readonly #sequenceField: number;
  readonly #beginningIsMarked: boolean;
  readonly #openedUs: number | undefined;

  #units: UnitSymbol[] | null = null;
  #sequence: number | null = null;
  /** Null until the first bytes have come. */
  #firstLineIsWhole: boolean | null = null;
  #inSync = false;
  #firstLineSeen = false;
  #bytes = 0;
  #bytesWithoutLine = 0;
  #readings = 0;
  #flagged = 0;
  readonly #misfits: Record<MisfitReason, number>;
  #chunkSeq = 0;
  #lineIndex = 0;

  constructor(profile: LineFormatProfile, { openedUs }: OpeningFacts = {}) {
    this.#profile = profile;
    this.#openedUs = openedUs;
    this.#assembler = new LineAssembler(profile.framing);
    const { lines } = profile.framing;
    this.#grouper = lines === undefined ? null : new LineGrouper(lines, profile.ignoredLines);
    this.#split = lineSplitter(profile.format, profile);
    this.#check = profile.check === undefined ? null : lineChecker(profile.check, profile.framing.leading);
    this.#beginningIsMarked = beginningIsMarked(profile);
    const names = fieldNamesOf(profile.format);
    this.#channels = profile.channels.map((channel) => ({
      field: names.indexOf(channel.field),
      unitField:
        channel.unit.kind === 'in-line' && channel.unit.field !== undefined
          ? names.indexOf(channel.unit.field)
          : -1,
      isTime: channel.quantity === 'time',
      isForce: channel.quantity === 'force',
      mean: channelMeaning(channel, profile),
    }));
    this.#statuses = profile.status.map((status) => ({
      field: names.indexOf(status.field),
      words: new Map<string, ReadingStatus>([
        ...status.good.map((word) => [keyOf(word), 'ok'] as const),
        ...status.error.map((word) => [keyOf(word), 'error-word'] as const),
        ...status.overload.map((word) => [keyOf(word), 'overload'] as const),
      ]),
      others: status.othersAreGood ? 'ok' : 'error-word',
    }));
    this.#sequenceField = profile.sequence === undefined ? -1 : names.indexOf(profile.sequence.field);
    this.#misfits = Object.fromEntries(MISFIT_REASONS.map((reason) => [reason, 0])) as Record<
      MisfitReason,
      number
    >;
  }

  push(chunkSeq: number, bytes: Uint8Array, arrivedUs: number): readonly ParsedLine[] {
    if (bytes.length === 0) return [];
    this.#firstLineIsWhole ??=
      this.#openedUs === undefined || arrivedUs - this.#openedUs >= QUIET_BEFORE_LINE_MS * 1000;
    this.#chunkSeq = chunkSeq;
    this.#lineIndex = 0;
    this.#bytes += bytes.length;
    const lines = this.#assembler.push(bytes, arrivedUs);
    this.#bytesWithoutLine = hasEnded(lines)
      ? this.#assembler.heldBytes
      : this.#bytesWithoutLine + bytes.length;
    return this.#taken(lines);
  }

  tick(nowUs: number): readonly ParsedLine[] {
    return this.#taken(this.#assembler.tick(nowUs));
  }

  end(): readonly ParsedLine[] {
    const rest = this.#taken(this.#assembler.end());
    return this.#grouper === null ? rest : [...rest, ...this.#grouper.end().map((line) => this.#take(line))];
  }

  #taken(lines: readonly AssembledLine[]): ParsedLine[] {
    const taken: ParsedLine[] = [];
    for (const line of this.#grouper?.group(lines) ?? lines) taken.push(this.#take(line));
    return taken;
  }

  counts(): ReadoutCounts {
    return {
      bytes: this.#bytes,
      readings: this.#readings,
      misfits: { ...this.#misfits },
      bytesWithoutLine: this.#bytesWithoutLine,
      flagged: this.#flagged,
    };
  }

  #take(line: AssembledLine): ParsedLine {
    const lineIndex = this.#lineIndex++;
    const isFirst = !this.#firstLineSeen;
    this.#firstLineSeen = true;
    if (line.end !== 'terminated') return this.#misfit(line, lineIndex, UNTERMINATED[line.end]);
    const parsed = this.#parse(line.text);
    if (typeof parsed === 'string')
      return this.#misfit(line, lineIndex, { reason: parsed, sentence: MISFIT_SENTENCES[parsed] });
    if (isFirst && this.#firstLineIsWhole === false && !this.#beginningIsMarked)
      return this.#misfit(line, lineIndex, UNDER_WAY);
    this.#inSync = true;
    this.#readings++;
    const { channels, status } = parsed;
    if (status !== 'ok' || !areGood(channels)) this.#flagged++;
    return {
      chunkSeq: this.#chunkSeq,
      lineIndex,
      bytes: line.bytes,
      outcome: { kind: 'reading', reading: { chunkSeq: this.#chunkSeq, lineIndex, channels, status } },
    };
  }

  #misfit(line: AssembledLine, lineIndex: number, { reason, sentence }: Misfit): ParsedLine {
    const mayBeTheOpening = !this.#inSync && this.#misfits['before-sync'] < LINES_BEFORE_SYNC_MAX;
    const shown = mayBeTheOpening && UNTIL_SYNC.has(reason) ? 'before-sync' : reason;
    this.#misfits[shown]++;
    return {
      chunkSeq: this.#chunkSeq,
      lineIndex,
      bytes: line.bytes,
      outcome: { kind: 'misfit', reason: shown, sentence },
    };
  }

  #parse(
    line: string,
  ): { channels: ShownValue[]; status: ReadingStatus } | 'layout' | 'check-wrong' | 'no-number' | 'ignored' {
    const { ignoredLines, framing } = this.#profile;
    for (const beginning of ignoredLines) if (line.startsWith(beginning)) return 'ignored';
    let text = line;
    if (framing.leading !== undefined) {
      if (!text.startsWith(framing.leading)) return 'layout';
      text = text.slice(framing.leading.length);
    }
    if (framing.trailing !== undefined) {
      if (!text.endsWith(framing.trailing)) return 'layout';
      text = text.slice(0, -framing.trailing.length);
    }
    if (this.#check !== null) {
      const checked = this.#check(text);
      if (!checked.ok) return 'check-wrong';
      text = checked.text;
    }
    const fields = this.#split(text);
    if (fields === null) return 'layout';
    const fieldStatus = this.#lineStatus(fields);
    const channels: ShownValue[] = [];
    let malformed = 0;
    for (const channel of this.#channels) {
      const unitText = channel.unitField === -1 ? undefined : fields[channel.unitField];
      let reading = channel.mean(fields[channel.field] ?? '', unitText);
      if (reading.status === 'malformed') malformed++;
      // An overload shown by a status letter makes the number beside it no value, whatever it says.
      else if (fieldStatus !== 'ok' && !channel.isTime && reading.status === 'ok')
        reading = { mantissa: null, exponent: 0, unit: reading.unit, status: fieldStatus };
      channels.push(reading);
    }
    if (malformed === channels.length) return 'no-number';
    if (2 * malformed > channels.length && this.#isOfAnotherLayout(fields, channels)) return 'layout';
    const unitHasChanged = this.#unitHasChanged(channels);
    const sequenceHasJumped = this.#sequenceHasJumped(fields);
    if (fieldStatus !== 'ok') return { channels, status: fieldStatus };
    if (unitHasChanged) return { channels, status: 'unit-changed' };
    return { channels, status: sequenceHasJumped ? 'sequence-jump' : 'ok' };
  }

  /**
   * "0.3;102,0;0,003" split at its commas has as many fields as are due, and the last one alone is a number. Most
   * channels begin as a number and are none, the load among them; a word that is not known ("NC") is no such text.
   */
  #isOfAnotherLayout(fields: readonly string[], channels: readonly ShownValue[]): boolean {
    const broken = this.#channels.filter(
      ({ field }, index) =>
        channels[index]?.status === 'malformed' && BEGINS_AS_NUMBER.test(fields[field] ?? ''),
    );
    const hasLoad = this.#channels.some(({ isForce }) => isForce);
    return 2 * broken.length > channels.length && (!hasLoad || broken.some(({ isForce }) => isForce));
  }

  #lineStatus(fields: readonly string[]): 'ok' | 'overload' | 'error-word' {
    let result: 'ok' | 'overload' | 'error-word' = 'ok';
    for (const { field, words, others } of this.#statuses) {
      const status = words.get(keyOf(fields[field] ?? '')) ?? others;
      if (status === 'overload' || (status === 'error-word' && result === 'ok')) result = status;
    }
    return result;
  }

  /** True on the first reading in another unit than the one before (or than the profile expects). */
  #unitHasChanged(channels: readonly ShownValue[]): boolean {
    this.#units ??= this.#profile.channels.map((channel) =>
      channel.unit.kind === 'fixed' ? channel.unit.unit : channel.unit.expected,
    );
    let changed = false;
    for (let index = 0; index < channels.length; index++) {
      const channel = channels[index];
      if (channel === undefined || channel.mantissa === null || channel.unit === this.#units[index]) continue;
      this.#units[index] = channel.unit;
      changed = true;
    }
    return changed;
  }

  #sequenceHasJumped(fields: readonly string[]): boolean {
    const { sequence } = this.#profile;
    if (sequence === undefined) return false;
    const text = (fields[this.#sequenceField] ?? '').trim();
    if (!/^\d{1,10}$/.test(text)) return true;
    const before = this.#sequence;
    const now = Number(text);
    this.#sequence = now;
    if (before === null) return false;
    if (sequence.modulus !== undefined) return now !== (before + 1) % sequence.modulus;
    return now !== before + 1 && now > 1;
  }
}

interface Misfit {
  readonly reason: MisfitReason;
  readonly sentence: string;
}

const UNTERMINATED: Readonly<Record<Exclude<AssembledLine['end'], 'terminated'>, Misfit>> = {
  'too-long': { reason: 'too-long', sentence: 'The line is longer than any reading; it is kept raw only.' },
  unfinished: { reason: 'incomplete', sentence: 'The line did not end; it is kept raw only.' },
  remainder: {
    reason: 'incomplete',
    sentence: 'The beginning of the line came too long before its end; it is kept raw only.',
  },
};

const UNDER_WAY: Misfit = {
  reason: 'before-sync',
  sentence: 'The line was under way when the port was opened; its beginning may be missing.',
};

// Loops, not closures: these run for every line of a fast readout.
function areGood(channels: readonly ShownValue[]): boolean {
  for (const channel of channels) if (channel.status !== 'ok') return false;
  return true;
}

/** Whether a line has come to its end in these. */
function hasEnded(lines: readonly AssembledLine[]): boolean {
  for (const { end } of lines) if (end === 'terminated' || end === 'remainder') return true;
  return false;
}

const BEGINS_AS_NUMBER = /^\s*[-+]?\d/;

/** What does not fit until the first line that fits is what the opening caught in mid-stream, or the noise of a device starting. */
const UNTIL_SYNC: ReadonlySet<MisfitReason> = new Set(['layout', 'check-wrong', 'no-number']);

const MISFIT_SENTENCES: Readonly<Record<'layout' | 'check-wrong' | 'no-number' | 'ignored', string>> = {
  layout: 'The line has not the layout of the profile; it is kept raw only.',
  'check-wrong': 'The check at the end of the line is missing or wrong; it is kept raw only.',
  'no-number': 'None of the fields holds a number or a known word; the line is kept raw only.',
  ignored: 'A heading or remark that the profile leaves out.',
};
