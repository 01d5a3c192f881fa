/** Where a rule or a figure comes from. Every value of a pack and of a table says it. */
import { z } from 'zod';

export const SOURCE_STATUSES = ['published', 'published-secondary', 'memory', 'practice', 'own'] as const;
export type SourceStatus = (typeof SOURCE_STATUSES)[number];
export const sourceStatus = z.enum(SOURCE_STATUSES);

/** The status in words, as page, certificate and `rules show` print it. */
export const STATUS_WORDS: Readonly<Record<SourceStatus, string>> = {
  published: 'seen in a published page',
  'published-secondary': 'seen in a published study guide, data book or maker’s page, not in the standard',
  memory: 'from memory, not checked against the standard',
  practice: 'common practice, no source',
  own: 'the laboratory’s own statement',
};

const AS_IT_IS = (text: string): string => text;

/** Where a clause or a figure was seen, wherever that is told; null where it is not known. `said`: in the words of the reader. */
export function originText(
  { status, source }: { readonly status: SourceStatus | null; readonly source: string | null },
  said: (english: string) => string = AS_IT_IS,
): string | null {
  if (status === null) return null;
  const words = said(STATUS_WORDS[status]);
  // Of common practice there is none.
  return status === 'practice' || source === null ? words : `${words}: ${said(source)}`;
}

/** Printed beside every verdict. */
export const CODE_GOVERNS =
  'Check the rule and its figures against your own copy of the code; the code, the responsible inspector or engineer and the local authority govern.';
