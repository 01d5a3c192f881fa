/** Which pull is to be taken elsewhere, and in which form: opened from its page, from the menu and by its keys. */
import { signal } from '@preact/signals';
import { z } from 'zod';
import { PULL_FORMS } from '../../core/contract/archive-requests.ts';
import { PICTURE_FORMS } from '../../core/contract/picture-requests.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import { say } from '../design/said.tsx';
import { remember, remembered } from '../store/remembered.ts';
import { request } from '../store/session-store.ts';
import { told } from '../words/told.ts';

export const EXPORT_FORMS = [...PULL_FORMS, ...PICTURE_FORMS] as const;
export type ExportForm = (typeof EXPORT_FORMS)[number];

/** Null where nothing is to be exported. */
export const exportedPull = signal<KeptPull | null>(null);

const FORM_KEY = 'gaugemark.pull-form';
export const exportForm = signal<ExportForm>(remembered(FORM_KEY, z.enum(EXPORT_FORMS), 'plain'));
remember(FORM_KEY, () => exportForm.value);

export async function openPullExport(pullId: number): Promise<void> {
  const kept = await request('pull.get', { pullId });
  if (kept.ok) exportedPull.value = kept.value;
  else say(told(kept.fault.sentence));
}
