/** A verdict as it crosses between processes. */
import { z } from 'zod';
import type { Verdict } from '../acceptance/verdict.ts';

/** Made by this program's own core on the other side: comparisons, margin, doubts, what other packs say. */
export const verdictMessage = z.custom<Verdict>(
  (v) => typeof v === 'object' && v !== null && 'outcome' in v && 'checks' in v && 'validity' in v,
  'is no verdict',
);
