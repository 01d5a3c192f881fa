/** Whether calliper or micrometer were fine enough, as lines of text: what needs a look stands first. */
import type { Evaluation } from '../../core/results/evaluation.ts';
import type { ResolutionCheck } from '../../core/results/instrument-resolution.ts';

const ORDER: readonly ResolutionCheck['verdict'][] = ['too-coarse', 'not-known', 'fine-enough'];

/** None for an evaluation without measured dimensions. */
export function resolutionLines({ resolution = [] }: Pick<Evaluation, 'resolution'>): string[] {
  if (resolution.length === 0) return [];
  const sorted = [...resolution].sort((a, b) => ORDER.indexOf(a.verdict) - ORDER.indexOf(b.verdict));
  return ['', 'Resolution of calliper or micrometer:', ...sorted.map(({ sentence }) => `  ${sentence}`)];
}
