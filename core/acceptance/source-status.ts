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

/** Printed beside every verdict. */
export const CODE_GOVERNS =
  'Check the rule and its figures against your own copy of the code; the code, the responsible inspector or engineer and the local authority govern.';
