/** What the certificate is about and what it is written on: kept while the window is open. */
import { computed, signal } from '@preact/signals';
import { z } from 'zod';
import type { Certified } from '../../../core/contract/certificate-requests.ts';
import { PAPERS, type Paper } from '../../../core/certificate/paper/paper-style.ts';
import { PAPER_LANGUAGES, type PaperLanguage } from '../../../core/words/paper-words.ts';
import { archiveGeneration } from '../../store/session-store.ts';
import { language, viewSettings } from '../../store/view-settings.ts';
import { withNewest } from '../../store/newest-kept.ts';
import { remember, remembered } from '../../store/remembered.ts';

/** One member of the open set; null for the whole set. */
export const certifiedMember = signal<number | null>(null);

/** A pull of the archive in place of the open set; null for the set, or for the session's pull where none is open. */
export const certifiedPull = signal<number | null>(null);

/** Certificates of which the number that was seen, and the language that was chosen, are remembered. */
const CERTIFICATES_REMEMBERED_MAX = 200;

const numbers = signal<ReadonlyMap<string, string | null>>(new Map());

/** Rows of another archive have the same numbers. */
const keyOf = (about: Certified): string => `${String(archiveGeneration.value)} ${JSON.stringify(about)}`;

/** Null: what it says now was never issued. */
export function sawNumber(about: Certified, number: string | null): void {
  numbers.value = withNewest(numbers.value, keyOf(about), number, CERTIFICATES_REMEMBERED_MAX);
}

/** As the certificate's station saw it last; undefined where it was not looked at. */
export const numberSeen = (about: Certified): string | null | undefined => numbers.value.get(keyOf(about));

const KEY = 'gaugemark.paper';

/** Who works in US units prints on Letter, unless chosen otherwise. */
export const paper = signal<Paper>(
  remembered<Paper>(KEY, z.enum(PAPERS), viewSettings.value.units === 'US' ? 'Letter' : 'A4'),
);

const LANGUAGE_KEY = 'gaugemark.paper-language';

interface ChosenLanguages {
  /** The one chosen last; null: the paper speaks as the window does. */
  readonly last: PaperLanguage | null;
  /** Of what was chosen for one certificate. */
  readonly of: ReadonlyMap<string, PaperLanguage>;
}

export const chosenLanguages = signal<ChosenLanguages>({
  last: remembered(LANGUAGE_KEY, z.enum(PAPER_LANGUAGES).nullable(), null),
  of: new Map(),
});

/** Of paper that nothing else was chosen for. */
export const paperLanguage = computed<PaperLanguage>(() => chosenLanguages.value.last ?? language.value);

/** Undefined where none was chosen for this certificate: then one that was issued keeps its language. */
export const languageChosenFor = (about: Certified): PaperLanguage | undefined =>
  chosenLanguages.value.of.get(keyOf(about));

export function chooseLanguageFor(about: Certified, chosen: PaperLanguage): void {
  const { of } = chosenLanguages.value;
  chosenLanguages.value = {
    last: chosen,
    of: withNewest(of, keyOf(about), chosen, CERTIFICATES_REMEMBERED_MAX),
  };
}

/** For what is printed from elsewhere: a table of results, the certificate of a verification. */
export function choosePaperLanguage(chosen: PaperLanguage): void {
  chosenLanguages.value = { ...chosenLanguages.value, last: chosen };
}

export function keepPaper(): void {
  remember(KEY, () => paper.value);
  remember(LANGUAGE_KEY, () => chosenLanguages.value.last);
}
