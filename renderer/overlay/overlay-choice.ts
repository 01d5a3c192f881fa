/** How curves are laid over each other, and which of them is looked at. */
import { signal } from '@preact/signals';
import { z } from 'zod';
import type { Alignment } from '../../core/curve/align.ts';
import type { PlotRange } from '../../core/drawing/plot-input.ts';
import { PULL_PLOT_FORMS, type PullPlotForm } from '../../core/drawing/pull-plot.ts';
import { remember, remembered } from '../store/remembered.ts';

export const ALIGNMENTS = [
  'start',
  'load',
  'elastic-zero',
  'as-recorded',
] as const satisfies readonly Alignment['kind'][];

const FORM_KEY = 'gaugemark.overlay-form';
const ALIGN_KEY = 'gaugemark.overlay-align';

export const form = signal<PullPlotForm>(remembered(FORM_KEY, z.enum(PULL_PLOT_FORMS), 'stress-strain'));
export const alignment = signal<(typeof ALIGNMENTS)[number]>(
  remembered(ALIGN_KEY, z.enum(ALIGNMENTS), 'elastic-zero'),
);
/** As typed. */
export const alignLoad = signal('');
export const chosen = signal<number | null>(null);
/** The difference of the chosen one to this one is drawn. */
export const comparedTo = signal<number | null>(null);
export const hidden = signal<ReadonlySet<number>>(new Set());
/** Null: everything. */
export const range = signal<PlotRange | null>(null);
/** Reading of the chosen pull under the cursor; -1 for none. */
export const cursor = signal(-1);

export function rememberOverlay(): void {
  remember(FORM_KEY, () => form.value);
  remember(ALIGN_KEY, () => alignment.value);
}

export function toggleHidden(pullId: number): void {
  const next = new Set(hidden.value);
  if (!next.delete(pullId)) next.add(pullId);
  hidden.value = next;
}
