/** That of a pull nothing was lost but what is stated, and nothing doubled, changed or made up. */
import { expect } from 'vitest';
import type { ReplyOf, RequestInputOf, RequestName } from '../../../core/contract/index.ts';
import { lineOf } from '../recorder-process.ts';
import { recorderClient } from './recorder-client.ts';

/** Whoever can ask the recorder of the archive. */
export interface Asked {
  readonly ask: <N extends RequestName>(name: N, payload: RequestInputOf<N>) => Promise<ReplyOf<N>>;
}

export interface KeptExcept {
  /** Lines that need not be there whole: lost within the stated bound, or not read to their end. */
  readonly except?: ReadonlySet<number>;
  /** Load in line number `count`; as `lineOf` has it where nothing is said. */
  readonly loadOf?: ((count: number) => number) | undefined;
}

/**
 * The raw bytes are, in order, those that were sent from the first one on, less what may be missing of the excepted lines;
 * the readings are the lines that are there, with their values as they were sent; the raw bytes parsed again give them.
 */
export async function expectAllKept(
  asked: Asked,
  pullId: number,
  sent: number,
  { except = new Set(), loadOf }: KeptExcept = {},
): Promise<void> {
  const lines = Array.from({ length: sent }, (_, count) => lineOf(count, loadOf?.(count)));
  const { bytes } = await asked.ask('pull.raw', { pullId, fromChunk: 0, count: 100_000 });
  const raw = Buffer.from(bytes).toString('latin1');
  if (except.size === 0) expect(raw).toBe(lines.join(''));
  else expect(differenceOf(raw, lines, except)).toBeNull();

  const { columns } = await asked.ask('pull.readings', { pullId, fromSeq: 0, count: 200_000 });
  const [counts, load, extension] = columns.channels.map(({ value }) => [...value]);
  const kept = new Set(counts);
  expect(counts).toEqual(
    lines.map((_, count) => count).filter((count) => !except.has(count) || kept.has(count)),
  );
  const told = (counts ?? []).map((count, i) => [count, load?.[i], extension?.[i]]);
  expect(told).toEqual((counts ?? []).map((count) => lines[count]?.trim().split(',').map(Number)));

  const check = await asked.ask('archive.check', { pullId });
  expect(check.lines.filter(({ ok }) => !ok)).toEqual([]);
  // Otherwise nobody would notice if nothing were parsed again.
  expect(check.lines.map(({ name }) => name)).toContain(`pull ${String(pullId)}, parsed again`);
}

/** The recorder of this archive that runs now, asked over a connection of its own, which is closed again. */
export async function expectAllKeptIn(
  archivePath: string,
  ...[pullId, sent, but]: [pullId: number, sent: number, but?: KeptExcept]
): Promise<void> {
  const client = await recorderClient(archivePath);
  const ask: Asked['ask'] = async (name, payload) => {
    const answer = await client.request(name, payload);
    if (!answer.ok) throw new Error(`${name}: ${answer.fault.sentence}`);
    return answer.value;
  };
  try {
    await expectAllKept({ ask }, pullId, sent, but);
  } finally {
    client.close();
  }
}

/**
 * Null where the raw bytes are these lines in order, of the excepted ones any beginning and any end; otherwise what is
 * wrong. CR ends a line: its LF may have stood in the port still where an excepted line follows.
 */
export function differenceOf(
  raw: string,
  lines: readonly string[],
  except: ReadonlySet<number>,
): string | null {
  /** Where the bytes read so far may end; several only where excepted lines leave it open. */
  let places = new Set([0]);
  for (const [count, line] of lines.entries()) {
    const before = places;
    places = new Set();
    for (const place of before) {
      if (except.has(count)) for (const end of endsOfPart(raw, place, line)) places.add(end);
      else {
        if (raw.startsWith(line, place)) places.add(place + line.length);
        const bare = line.slice(0, -1);
        if (except.has(count + 1) && raw.startsWith(bare, place)) places.add(place + bare.length);
      }
    }
    if (places.size === 0) {
      const place = Math.max(...before);
      return `line ${String(count)} (${JSON.stringify(line)}) does not stand at byte ${String(place)}, but ${JSON.stringify(raw.slice(place, place + 80))}`;
    }
  }
  return places.has(raw.length) ? null : `${String(raw.length - Math.max(...places))} bytes that nobody sent`;
}

/** Where some beginning of the line and then some end of it may end that stand here, none longer together than the line. */
function endsOfPart(raw: string, place: number, line: string): Set<number> {
  const ends = new Set<number>();
  for (let head = 0; head <= line.length && raw.startsWith(line.slice(0, head), place); head++)
    for (let tail = line.length; tail >= head; tail--)
      if (raw.startsWith(line.slice(tail), place + head)) ends.add(place + head + line.length - tail);
  return ends;
}
