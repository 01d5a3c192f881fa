/** What the certificate is about and what it is written on: kept while the window is open. */
import { signal } from '@preact/signals';
import { z } from 'zod';
import { PAPERS, type Paper } from '../../../core/certificate/paper/paper-style.ts';
import { viewSettings } from '../../store/view-settings.ts';
import { remember, remembered } from '../../store/remembered.ts';

/** One member of the open set; null for the whole set. */
export const certifiedMember = signal<number | null>(null);

/** A pull of the archive in place of the open set; null for the set, or for the session's pull where none is open. */
export const certifiedPull = signal<number | null>(null);

const KEY = 'gaugemark.paper';

/** Who works in US units prints on Letter, unless chosen otherwise. */
export const paper = signal<Paper>(
  remembered<Paper>(KEY, z.enum(PAPERS), viewSettings.value.units === 'US' ? 'Letter' : 'A4'),
);

export function keepPaper(): void {
  remember(KEY, () => paper.value);
}
