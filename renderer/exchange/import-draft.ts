/** A file to be imported: how it would be read, and for which specimen. */
import { batch, signal } from '@preact/signals';
import type { PageReplyOf } from '../../core/contract/bridge.ts';
import type { ChosenFile } from '../../core/contract/file-requests.ts';
import { errand } from '../store/errand.ts';
import { forgetSteps } from '../store/taken-back.ts';
import { archiveGeneration, exchangeProgress, request } from '../store/session-store.ts';
import { chosenFile } from './chosen-file.ts';
import { PlanDraft } from './plan-draft.ts';
import { statedOf } from './stated-of.ts';

export type ImportAnswer = PageReplyOf<'archive.import'>;

export const file = signal<ChosenFile | null>(null);
/** Asked about only while there is a file. */
export const planned = new PlanDraft((choices) =>
  request('archive.preview-import', { file: file.value?.sign ?? '', choices }),
);
export const specimenId = signal<number | null>(null);
/** The day of the pull as it is typed; of this file. */
export const pulledOn = signal('');
/** Who pulled it, as it is typed; of this file. */
export const operator = signal('');
export const imported = signal<ImportAnswer | null>(null);
export const importing = errand();
/** Of the file. */
export const choosing = errand();
/** The import itself, not the choice of a file. */
export const isReading = signal(false);

export async function chooseFile(): Promise<void> {
  const chosen = await chosenFile(choosing, 'curve');
  if (chosen === null) return;
  batch(() => {
    file.value = chosen;
    planned.clear();
    imported.value = null;
    pulledOn.value = '';
    operator.value = '';
    importing.fault.value = null;
  });
  forgetChoices();
  await planned.look();
}

/** Those of another file, or of one that is a pull now. */
function forgetChoices(): void {
  forgetSteps(planned.columns);
  forgetSteps(pulledOn);
}

export async function importNow(): Promise<void> {
  const its = file.value;
  const specimen = specimenId.value;
  const day = statedOf(pulledOn.value).pulledOn;
  if (its === null || specimen === null) return;
  exchangeProgress.value = null;
  isReading.value = true;
  const done = await importing.run(() =>
    request('archive.import', {
      file: its.sign,
      specimen,
      choices: planned.choices,
      ...(day === null ? {} : { pulledOn: day }),
      ...(operator.value.trim() === '' ? {} : { operator: operator.value.trim() }),
    }),
  );
  isReading.value = false;
  if (done === null) return;
  imported.value = done;
  forgetChoices();
  archiveGeneration.value++;
}
