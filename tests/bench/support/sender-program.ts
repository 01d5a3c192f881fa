/**
 * A process of its own that plays the readout: writes lines to a pty at a pace, from a table made beforehand.
 * Arguments: path, lines a second (0: as fast as they are taken), milliseconds between writes, lines in all, first line.
 * Writes to standard output "ready", then at the end one JSON line: when each write was made (µs on the system's
 * monotonic clock), and the number of the line behind the last one of that write.
 */
import { closeSync, constants, openSync, writeSync } from 'node:fs';
import { LINE_BYTES, linesBytes } from './pull-lines.ts';

const [path = '', rateText = '', batchText = '', countText = '', fromText = '0'] = process.argv.slice(2);
const linesPerS = Number(rateText);
const batchMs = Number(batchText);
const count = Number(countText);
const from = Number(fromText);
const bytes = linesBytes(from, count);
const file = openSync(path, constants.O_WRONLY | constants.O_NOCTTY);
const nowUs = (): number => Number(process.hrtime.bigint() / 1000n);

const writtenUs: number[] = [];
const behindLine: number[] = [];
let sent = 0;

function send(upTo: number): void {
  let at = sent * LINE_BYTES;
  const end = upTo * LINE_BYTES;
  const beganUs = nowUs();
  while (at < end) at += writeSync(file, bytes, at, Math.min(end - at, 4096));
  sent = upTo;
  writtenUs.push(beganUs);
  behindLine.push(from + sent);
}

function finish(): void {
  process.stdout.write(`${JSON.stringify({ writtenUs, behindLine })}\n`, () => {
    closeSync(file);
    process.exit(0);
  });
}

process.stdout.write('ready\n');
process.stdin.once('data', () => {
  if (linesPerS === 0) {
    send(count);
    finish();
    return;
  }
  const begunUs = nowUs();
  const step = (): void => {
    const batch = Math.floor((nowUs() - begunUs) / (batchMs * 1000)) + 1;
    const due = Math.min(count, Math.floor((batch * batchMs * linesPerS) / 1000));
    if (due > sent) send(due);
    if (sent === count) finish();
    else setTimeout(step, Math.max(0, (begunUs + batch * batchMs * 1000 - nowUs()) / 1000 - 0.2));
  };
  step();
});
