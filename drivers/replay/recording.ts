/**
 * A file of recorded bytes. Either the bare bytes (a log that some terminal program wrote), or, where its name
 * ends in `.timed`, our own form: a first line `gaugemark recorded bytes 1`, then one line a chunk,
 * `<µs since the first> <bytes in hex>`. Only the second one knows the pace.
 */
import { open, stat } from 'node:fs/promises';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import { SourceFaultError } from '../transport.ts';

/** A file larger than this is no record of a pull: an hour at 10 000 lines/s. */
export const RECORDING_BYTES_MAX = 1_073_741_824;
const TIMED_HEADING = 'gaugemark recorded bytes 1';
/** Bare bytes are given out in pieces that a port would give at one read. */
const PIECE_MS = 10;

export interface RecordedChunk {
  readonly elapsedUs: number;
  readonly bytes: Uint8Array;
}

/** The chunks of a recording, in order. Rejects with a SourceFaultError. */
export async function readRecording(
  file: string,
  profile: ReadoutProfile,
): Promise<readonly RecordedChunk[]> {
  const bytes = await readBytes(file);
  const heading = bytes.subarray(0, TIMED_HEADING.length).toString('latin1');
  return heading === TIMED_HEADING ? timedChunks(bytes, file) : pacedChunks(bytes, profile);
}

async function readBytes(file: string): Promise<Buffer> {
  let handle;
  try {
    const found = await stat(file);
    if (!found.isFile()) throw notAFile(file);
    if (found.size > RECORDING_BYTES_MAX)
      throw new SourceFaultError({
        code: 'file-unreadable',
        sentence: `${file} is larger than any recording (${String(RECORDING_BYTES_MAX)} bytes); choose another file.`,
      });
    handle = await open(file, 'r');
    return await handle.readFile();
  } catch (error) {
    if (error instanceof SourceFaultError) throw error;
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    throw new SourceFaultError(
      code === 'ENOENT'
        ? { code: 'file-missing', sentence: `There is no file ${file}; check its name.`, detail: code }
        : {
            code: 'file-unreadable',
            sentence: `${file} can't be read (${code}); check its permissions.`,
            detail: code,
          },
    );
  } finally {
    await handle?.close();
  }
}

function notAFile(file: string): SourceFaultError {
  return new SourceFaultError({
    code: 'file-unreadable',
    sentence: `${file} is no file of recorded bytes; a port is opened as a port, not as a recording.`,
  });
}

function timedChunks(bytes: Buffer, file: string): RecordedChunk[] {
  const chunks: RecordedChunk[] = [];
  let before = 0;
  bytes
    .toString('latin1')
    .split('\n')
    .slice(1)
    .forEach((line, index) => {
      if (line.trim() === '') return;
      const match = /^(\d{1,15}) ((?:[0-9a-f]{2})+)\r?$/i.exec(line);
      const elapsedUs = Number(match?.[1]);
      if (match === null || elapsedUs < before)
        throw new SourceFaultError({
          code: 'file-unreadable',
          sentence: `Line ${String(index + 2)} of ${file} is not "<µs> <bytes in hex>" with times that go up; the recording is damaged there.`,
        });
      before = elapsedUs;
      chunks.push({ elapsedUs, bytes: Buffer.from(match[2] ?? '', 'hex') });
    });
  return chunks;
}

/** Bare bytes have no times: line rate where the profile knows it, else the time that the baud rate takes. */
function pacedChunks(bytes: Buffer, profile: ReadoutProfile): RecordedChunk[] {
  const bytesPerS = profile.rateHz === undefined ? (profile.serial?.baudRate ?? 9600) / 10 : null;
  const chunks: RecordedChunk[] = [];
  if (bytesPerS !== null) {
    const piece = Math.max(1, Math.round((bytesPerS * PIECE_MS) / 1000));
    for (let at = 0; at < bytes.length; at += piece)
      chunks.push({ elapsedUs: Math.round((at / bytesPerS) * 1e6), bytes: bytes.subarray(at, at + piece) });
    return chunks;
  }
  const terminator = lineEndByte(profile);
  let at = 0;
  for (let line = 0; at < bytes.length; line++) {
    const end = bytes.indexOf(terminator, at);
    const next = end === -1 ? bytes.length : end + 1;
    chunks.push({
      elapsedUs: Math.round((line / (profile.rateHz ?? 1)) * 1e6),
      bytes: bytes.subarray(at, next),
    });
    at = next;
  }
  return chunks;
}

function lineEndByte({ framing }: ReadoutProfile): number {
  if (framing.terminator === 'cr') return 0x0d;
  return typeof framing.terminator === 'object'
    ? framing.terminator.custom.charCodeAt(framing.terminator.custom.length - 1)
    : 0x0a;
}
