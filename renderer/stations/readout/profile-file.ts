/** A readout profile as text of a file: checked before anything is kept. */
import { type ReadoutProfile, readoutProfile } from '../../../core/contract/readout-profile.ts';
import { shapeFaults } from '../../../core/shape-faults.ts';
import type { Words } from '../../words/en.ts';

export type ProfileFileOutcome =
  | { readonly ok: true; readonly profile: ReadoutProfile }
  | { readonly ok: false; readonly sentence: string };

/** The profile in a file, or one sentence that names the file, what is wrong and what to do. */
export function readProfileText(
  { name, text }: { readonly name: string; readonly text: string },
  words: Words['readout'],
): ProfileFileOutcome {
  let json: unknown;
  try {
    // A byte order mark is what some editors put before the first brace.
    json = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return { ok: false, sentence: words.fileNotJson(name) };
  }
  const checked = readoutProfile.safeParse(json);
  if (checked.success) return { ok: true, profile: checked.data };
  const [first] = shapeFaults(checked.error.issues, json, { whole: words.profile, schema: readoutProfile });
  return { ok: false, sentence: words.fileWrong(name, first?.sentence ?? '') };
}
