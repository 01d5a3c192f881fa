/** A readout profile as text of a file: checked before anything is kept. */
import { type ReadoutProfile, readoutProfile } from '../../../core/contract/readout-profile.ts';
import { shapeFaults } from '../../../core/shape-faults.ts';
import type { Words } from '../../words/en.ts';

export type ProfileFileOutcome =
  | { readonly ok: true; readonly profile: ReadoutProfile }
  /** One sentence that names the file, what is wrong and what to do. */
  | { readonly ok: false; readonly sentenceIn: (words: Words['readout']) => string };

/** The profile in a file, or what is wrong with it. */
export function readProfileText({
  name,
  text,
}: {
  readonly name: string;
  readonly text: string;
}): ProfileFileOutcome {
  let json: unknown;
  try {
    // A byte order mark is what some editors put before the first brace.
    json = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch {
    return { ok: false, sentenceIn: (words) => words.fileNotJson(name) };
  }
  const checked = readoutProfile.safeParse(json);
  if (checked.success) return { ok: true, profile: checked.data };
  const { issues } = checked.error;
  return {
    ok: false,
    sentenceIn: (words) => {
      const [first] = shapeFaults(issues, json, { whole: words.profile, schema: readoutProfile });
      return words.fileWrong(name, first?.sentence ?? '');
    },
  };
}
