/** Learns from a file of recorded bytes: some seconds for a large one, which must hold up neither port nor commits. */
import { open } from 'node:fs/promises';
import { basename } from 'node:path';
import { parentPort, workerData } from 'node:worker_threads';
import { z } from 'zod';
import type { LearningState } from '../../core/contract/learn-requests.ts';
import { LEARN_BYTES_MAX, learnLines } from '../../drivers/learn/learn-lines.ts';
import { NOTHING, outcome } from './learnt-state.ts';

const { path } = z.object({ path: z.string() }).parse(workerData);
void learnt().then((told) => parentPort?.postMessage(told));

/** A file that can't be read is a fault of the outcome. */
async function learnt(): Promise<LearningState> {
  const from = basename(path);
  try {
    const bytes = await beginning();
    return outcome({ ...NOTHING, from, bytes: bytes.length }, learnLines(bytes), bytes);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    const sentence = `${from} can't be read (${code}); check its permissions, or choose another file.`;
    return { ...NOTHING, from, state: 'failed', fault: { code: 'file-unreadable', sentence } };
  }
}

async function beginning(): Promise<Buffer> {
  const file = await open(path, 'r');
  try {
    const buffer = Buffer.alloc(LEARN_BYTES_MAX);
    const { bytesRead } = await file.read(buffer, 0, buffer.length, 0);
    return buffer.subarray(0, bytesRead);
  } finally {
    await file.close();
  }
}
