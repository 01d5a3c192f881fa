/**
 * A correction of a kept specimen while it is typed: who and why, and what it changes in the pulls that rest on the
 * specimen, worked out by the recorder for the sizes that stand in the form.
 */
import { type Signal, signal } from '@preact/signals';
import type { Answer } from '../../../core/contract/index.ts';
import type { EvaluatedAnew, PullOfSpecimen } from '../../../core/contract/specimen-requests.ts';
import type { Evaluation } from '../../../core/results/evaluation.ts';
import type { SpecimenFile } from '../../../core/specimen/specimen-file.ts';
import { HeldTyping } from '../../store/held-typing.ts';
import { type Errand, errand } from '../../store/errand.ts';
import { request } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';
import { person } from '../set/person.ts';

export interface CorrectedPull extends PullOfSpecimen {
  readonly before: Evaluation;
  readonly after: Evaluation;
}

interface WorkedOut {
  /** What was worked out: another specimen, or another evaluation that stands, needs another look. */
  readonly of: string;
  readonly pulls: readonly CorrectedPull[];
}

/** Why, by the specimen that is corrected; its sizes stay in the draft anyway. */
export const heldReason = new HeldTyping<{ readonly reason: Signal<string> }>('correctionReason');
/** It was kept, or the correction given up. */
export const letGoOfReason = (specimenId: number): void => heldReason.letGo(specimenId);

export class Correction {
  /** Held by the form. */
  reason: Signal<string> = signal('');
  readonly by = signal(person.value);
  /** Faults are shown beside untouched fields only once keeping, or showing what changes, was tried. */
  readonly tried = signal(false);
  /** Of the specimen that is corrected; null until it is known. */
  readonly pulls: Signal<readonly PullOfSpecimen[] | null> = signal(null);
  readonly #worked: Signal<WorkedOut | null> = signal(null);
  readonly work: Errand = errand();
  #specimenId = 0;

  /** Asks which pulls rest on it: anew before it is worked out and before it is kept. */
  async lookUp(specimenId: number): Promise<Answer<readonly PullOfSpecimen[]>> {
    this.#specimenId = specimenId;
    const answer = await request('specimen.pulls', { specimenId });
    if (!answer.ok) return answer;
    // A later question has its own answer.
    if (this.#specimenId === specimenId) this.pulls.value = answer.value.pulls;
    return { ok: true, value: answer.value.pulls };
  }

  /** Old and new of each pull. Read in a rendering, it follows both the sizes typed and what stands. */
  shown(specimen: SpecimenFile): readonly CorrectedPull[] | null {
    const worked = this.#worked.value;
    return worked?.of === sign(this.pulls.value, specimen) ? worked.pulls : null;
  }

  /** True where there is nothing that rests on it, or what it changes was shown. */
  isSeen(specimen: SpecimenFile): boolean {
    return this.pulls.value?.length === 0 || this.shown(specimen) !== null;
  }

  async workOut(specimenId: number, specimen: SpecimenFile): Promise<void> {
    await this.work.run(async () => {
      const looked = await this.lookUp(specimenId);
      if (!looked.ok) return looked;
      const pulls: CorrectedPull[] = [];
      for (const one of looked.value) {
        const before = await request('pull.evaluate', { pullId: one.pullId });
        if (!before.ok) return before;
        const after = await request('pull.evaluate', { pullId: one.pullId, specimen });
        if (!after.ok) return after;
        pulls.push({ ...one, before: before.value, after: after.value });
      }
      this.#worked.value = { of: sign(looked.value, specimen), pulls };
      return { ok: true, value: pulls };
    });
  }

  /** Whether a kept evaluation of one of them would be superseded. */
  get supersedes(): boolean {
    return this.pulls.value?.some(({ standing }) => standing !== null) === true;
  }

  /** What is said with the record. */
  said(): { reason: string; by?: string } {
    const by = this.by.value.trim();
    if (by !== '') person.value = by;
    return { reason: this.reason.value.trim(), ...(by === '' ? {} : { by }) };
  }

  /** Of another specimen. */
  begin(reason: Signal<string>): void {
    this.reason = reason;
    this.by.value = person.value;
    this.tried.value = false;
    this.#worked.value = null;
    this.work.fault.value = null;
  }
}

/** Which evaluation takes the place of which. */
export const anewWords = ({ pullId, evaluationId, supersedes }: EvaluatedAnew): string =>
  words.value.specimen.evaluationAnew(String(evaluationId), String(pullId), String(supersedes));

const sign = (pulls: readonly PullOfSpecimen[] | null, specimen: SpecimenFile): string =>
  JSON.stringify([pulls, specimen]);
