/** Which splitter serves which format. */
import type { LineFormat, ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { LineSplitter } from './line-splitter.ts';
import { splitDelimited } from './split-delimited.ts';
import { splitFixedColumns } from './split-fixed-columns.ts';
import { splitLabelled } from './split-labelled.ts';
import { splitParts } from './split-parts.ts';

/** The splitter of a format that has lines. */
export function lineSplitter(
  format: Exclude<LineFormat, { kind: 'registers' }>,
  profile: ReadoutProfile,
): LineSplitter {
  switch (format.kind) {
    case 'delimited':
      return splitDelimited(format);
    case 'fixed-columns':
      return splitFixedColumns(format);
    case 'labelled':
      return splitLabelled(format);
    case 'parts':
      return splitParts(format, profile);
  }
}

/**
 * Whether a line that lost its beginning can be told from a whole one: it begins with something that stands
 * nowhere else. Without that, the first line after opening in mid-stream is not believed.
 */
export function beginningIsMarked(profile: ReadoutProfile): boolean {
  if (profile.framing.leading !== undefined) return true;
  // A check over the whole line tells too.
  if (profile.check !== undefined && profile.check.skipped === 0) return true;
  const { format } = profile;
  switch (format.kind) {
    case 'delimited':
      return profile.status.some((status) => status.field === format.fields[0] && !status.othersAreGood);
    case 'fixed-columns':
      return format.lineLength !== undefined && format.lineLength.min === format.lineLength.max;
    case 'labelled':
      return format.ordered && (format.fields[0]?.label ?? '').length > 1;
    case 'parts': {
      const first = format.parts[0];
      if (first?.part === 'text') return first.text.length > 1;
      return first?.part === 'word' && first.length !== undefined && !first.optional;
    }
    case 'registers':
      return true;
  }
}
