/** What a file says above its rows of where its readings come from. */
import type { ImportedReadings } from '../../contract/source.ts';
import { readingsSaidIn } from '../source-words.ts';
import { IMPORT_HEAD_BYTES, headLines } from './head-lines.ts';
import type { ImportPlan } from './import-plan.ts';

/** Null where it says nothing that this program writes of simulated or replayed readings. */
export function readingsSaidBy(bytes: Uint8Array, plan: ImportPlan): ImportedReadings | null {
  const head = bytes.subarray(0, IMPORT_HEAD_BYTES);
  const lines = headLines(head, plan.encoding, head.length === bytes.length);
  return lines.ok ? readingsSaidIn(lines.lines.slice(0, plan.firstRowLine - 1)) : null;
}
