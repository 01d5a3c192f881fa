/**
 * Learning from a port that is talking: which line settings make sense of it, then what its lines are. Settings are
 * scored over seconds, never accepted on one line. Never to be used while a pull is recorded: the port is opened
 * anew for each setting. A serial device server (TCP) has its settings on its own side; it is listened to once.
 */
import type { LearnableSource } from '../../core/contract/source.ts';
import {
  READOUT_PROFILE_SCHEMA,
  type ReadoutProfile,
  type SerialSettings,
  readoutProfile,
} from '../../core/contract/readout-profile.ts';
import { createTransport } from '../create-transport.ts';
import { QUIET_BEFORE_LINE_MS } from '../lines/line-parser.ts';
import { monotonicUs } from '../transport.ts';
import { type Learnt, learnLines } from './learn-lines.ts';
import { parityShown, sevenBits } from './parity-bits.ts';
import { type HeardChunk, steadySeconds } from './steady-rate.ts';

/** A setting is listened to for so long before another is tried; slow indicators send three lines in it. */
const LISTEN_MS = 1_200;
/**
 * A port that sends nothing at all in this time, or in that which it is to be listened to, is not talking: other settings
 * would hear nothing either.
 */
const SILENCE_MS = 4_000;
/** With this score a setting is right and only more lines are wanted. */
const RIGHT_SCORE = 0.9;
const LINES_MIN = 3;
/** Bytes kept; a readout shows what it is long before. */
const BYTES_MAX = 2_097_152;

/** The usual settings, the most usual first (common practice, no source). */
const BAUD_RATES = [9600, 115_200, 19_200, 4800, 38_400, 57_600, 2400, 1200, 230_400] as const;

export interface PortLearning {
  readonly learnt: Learnt | null;
  /** Null where the source has none of its own. */
  readonly settings: SerialSettings | null;
  readonly bytes: number;
  /** What was heard at these settings. */
  readonly heard: Buffer;
  readonly seconds: number;
  /** Settings tried, with their scores, best first. */
  readonly tried: readonly { readonly settings: SerialSettings | null; readonly score: number }[];
}

export interface LearnFromPortOptions {
  readonly source: LearnableSource;
  /** How long to listen at the settings that are right. */
  readonly seconds: number;
  readonly name?: string;
  /** What the operator knows already: tried first. */
  readonly settings?: SerialSettings;
  /** Set after each opening, and kept in the profile: some readouts begin anew when DTR moves. */
  readonly controlLines?: ControlLines;
  /** Ends the listening early; what was heard until then is what is learned from. */
  readonly signal?: AbortSignal;
  /** Told when a setting is begun, and what was heard before it. */
  readonly onProgress?: (progress: LearnProgress) => void;
}

export interface LearnProgress {
  readonly settings: SerialSettings | null;
  readonly tried: number;
  /** Most bytes that were heard at any setting. */
  readonly bytes: number;
}

type ControlLines = NonNullable<ReadoutProfile['controlLines']>;

interface Heard {
  readonly settings: SerialSettings | null;
  readonly bytes: Buffer;
  readonly seconds: number;
  /** For its bytes at the pace at which they came; null where that can't be told. */
  readonly steadyS: number | null;
  readonly score: number;
}

/** Rejects with a SourceFaultError where the source can't be opened. */
export async function learnFromPort({
  source,
  seconds,
  name,
  settings,
  controlLines,
  signal,
  onProgress,
}: LearnFromPortOptions): Promise<PortLearning> {
  const options = name === undefined ? {} : { name };
  const heard: Heard[] = [];
  const queue: (SerialSettings | null)[] =
    source.kind === 'tcp'
      ? [null]
      : [...(settings === undefined ? [] : [settings]), ...BAUD_RATES.map(eightBits)];
  const seen = new Set<string>();
  for (let setting = queue.shift(); setting !== undefined; setting = queue.shift()) {
    const key = JSON.stringify(setting);
    if (seen.has(key)) continue;
    seen.add(key);
    if (signal?.aborted === true && heard.length > 0) break;
    onProgress?.({ settings: setting, tried: heard.length, bytes: mostBytes(heard) });
    const isFirst = heard.length === 0;
    const now = await listen(source, listeningProfile(setting, controlLines), {
      seconds,
      silenceMs: isFirst ? Math.max(SILENCE_MS, seconds * 1000) : LISTEN_MS,
      isChosen: source.kind === 'tcp',
      signal,
    });
    heard.push(now);
    if (isFirst && now.bytes.length === 0) break;
    if (now.score >= RIGHT_SCORE) break;
    // Text whose top bits are parity bits: the same speed with seven data bits.
    const parity = parityShown(now.bytes);
    if (parity !== null && setting?.dataBits === 8) queue.unshift(sevenBits(setting, parity));
  }
  heard.sort((a, b) => b.score - a.score);
  let [best] = heard;
  if (best === undefined) throw new Error('at least one setting is tried');
  // None was clearly right: the best of them is heard out over seconds before anything is proposed.
  if (best.settings !== null && best.bytes.length > 0 && best.score < RIGHT_SCORE && signal?.aborted !== true)
    best = await listen(source, listeningProfile(best.settings, controlLines), {
      seconds,
      silenceMs: Math.max(SILENCE_MS, seconds * 1000),
      isChosen: true,
      signal,
    });
  const pace = best.steadyS === null ? {} : { seconds: best.steadyS };
  const serial = best.settings === null ? {} : { serial: best.settings };
  const found = learnLines(best.bytes, { ...options, ...serial, ...pace });
  const learnt = found === null || controlLines === undefined ? found : withLines(found, controlLines);
  return {
    heard: best.bytes,
    learnt: learnt === null || best.steadyS !== null ? learnt : withRemark(learnt, NO_PACE),
    settings: best.settings,
    bytes: Math.max(mostBytes(heard), best.bytes.length),
    seconds: best.seconds,
    tried: heard.map(({ settings: each, score }) => ({ settings: each, score })),
  };
}

const NO_PACE =
  'How many lines a second it sends could not be told from what was heard; give "rateHz" in the profile where it is known, or listen longer with --seconds.';

const mostBytes = (heard: readonly Heard[]): number =>
  heard.reduce((most, { bytes }) => Math.max(most, bytes.length), 0);

const withLines = (learnt: Learnt, controlLines: ControlLines): Learnt => ({
  ...learnt,
  profile: { ...learnt.profile, controlLines },
});

function withRemark(learnt: Learnt, remark: string): Learnt {
  return { ...learnt, remarks: [...learnt.remarks, remark] };
}

function eightBits(baudRate: number): SerialSettings {
  return { baudRate, dataBits: 8, parity: 'none', stopBits: 1, flowControl: 'none' };
}

interface Listening {
  /** How long to go on where the setting is right (or chosen). */
  readonly seconds: number;
  /** How long to wait for the first byte. */
  readonly silenceMs: number;
  /** Goes on for the whole time whatever the score is. */
  readonly isChosen: boolean;
  readonly signal: AbortSignal | undefined;
}

/** Opens the port at one setting and takes what comes: a moment, or all the seconds where it makes sense. */
async function listen(
  source: LearnableSource,
  profile: ReadoutProfile,
  { seconds, silenceMs, isChosen, signal }: Listening,
): Promise<Heard> {
  const transport = createTransport(source, { profile });
  const chunks: Uint8Array[] = [];
  const arrivals: HeardChunk[] = [];
  let total = 0;
  const first: { us: number | null } = { us: null };
  let end: () => void = () => undefined;
  const ended = new Promise<void>((resolve) => {
    end = resolve;
  });
  let begin: () => void = () => undefined;
  const begun = new Promise<void>((resolve) => {
    begin = resolve;
  });
  await transport.open({
    onChunk: (bytes, arrivedUs) => {
      first.us ??= arrivedUs;
      begin();
      if (total < BYTES_MAX) {
        chunks.push(bytes);
        arrivals.push({ us: arrivedUs, byteCount: bytes.length });
      }
      total += bytes.length;
    },
    onClose: () => {
      begin();
      end();
    },
    onFault: () => undefined,
    onNote: () => undefined,
  });
  const stopped = (): void => {
    begin();
    end();
  };
  if (signal?.aborted === true) stopped();
  signal?.addEventListener('abort', stopped, { once: true });
  const openedUs = monotonicUs();
  await atMost(silenceMs, begun);
  let heardS = 0;
  if (first.us !== null) {
    await atMost(Math.min(LISTEN_MS, seconds * 1000), ended);
    if (isChosen || scoreOf(Buffer.concat(chunks)) >= RIGHT_SCORE) {
      const passedS = (monotonicUs() - first.us) / 1e6;
      await atMost(Math.max(0, (seconds - passedS) * 1000), ended);
    }
    heardS = (monotonicUs() - first.us) / 1e6;
  }
  signal?.removeEventListener('abort', stopped);
  await transport.close();
  const bytes = Buffer.concat(chunks);
  // What came at once after opening may be the end of a line that was under way.
  const mayBeCut = first.us !== null && first.us - openedUs < QUIET_BEFORE_LINE_MS * 1000;
  return {
    settings: profile.serial ?? null,
    bytes: mayBeCut ? withoutFirstLine(bytes) : bytes,
    seconds: heardS,
    steadyS: steadySeconds(arrivals),
    score: scoreOf(bytes),
  };
}

/** Waits for something, but no longer than this. */
async function atMost(limitMs: number, something: Promise<void>): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  await Promise.race([
    something,
    new Promise<void>((resolve) => {
      timer = setTimeout(resolve, limitMs);
    }),
  ]);
  clearTimeout(timer);
}

/** How well the bytes make sense as a readout: wrong speeds give bytes that are no text, or few lines that fit. */
function scoreOf(bytes: Buffer): number {
  if (bytes.length === 0) return 0;
  let text = 0;
  for (const byte of bytes)
    if ((byte >= 0x20 && byte < 0x7f) || byte === 0x0d || byte === 0x0a || byte === 0x09) text++;
  const printable = text / bytes.length;
  const learnt = learnLines(withoutFirstLine(bytes));
  if (learnt === null) return printable * 0.2;
  const lines = learnt.readings + learnt.rejected;
  const fitting = learnt.readings / Math.max(1, lines);
  const enough = learnt.readings >= LINES_MIN ? 1 : 0.6;
  return printable ** 2 * fitting * enough;
}

/** The first line may have been under way. */
function withoutFirstLine(bytes: Buffer): Buffer {
  const end = bytes.findIndex((byte) => byte === 0x0a || byte === 0x0d);
  return end === -1 ? bytes : bytes.subarray(end + 1);
}

/** Only the settings of it are used. */
function listeningProfile(
  serial: SerialSettings | null,
  controlLines: ControlLines | undefined,
): ReadoutProfile {
  return readoutProfile.parse({
    schema: READOUT_PROFILE_SCHEMA,
    name: 'listening',
    ...(serial === null ? {} : { serial }),
    controlLines,
    format: { kind: 'delimited', delimiter: ',', fields: ['1'] },
    channels: [{ field: '1', quantity: 'other', unit: { kind: 'fixed', unit: '1' } }],
  });
}
