/** Name and address of the laboratory as they are typed, beside what of it is kept. */
import { type Signal, batch, signal } from '@preact/signals';
import type { PageRequestOf } from '../../../core/contract/bridge.ts';
import { NAME_LENGTH_MAX } from '../../../core/limits.ts';
import { HeldTyping } from '../../store/held-typing.ts';

type Laboratory = PageRequestOf<'laboratory.save'>;
const UNNAMED: Laboratory = { name: '', lines: [] };

export interface LaboratoryDraft {
  readonly name: Signal<string>;
  readonly lines: Signal<string>;
  readonly kept: Signal<Laboratory>;
}

/** An archive has one. */
export const LABORATORY = 'laboratory';
export const blankLaboratory = (): LaboratoryDraft => ({
  name: signal(''),
  lines: signal(''),
  kept: signal(UNNAMED),
});

/** Typed is what says something else than what is kept: typed and taken out again it is missed by nobody. */
const isTyped = (draft: LaboratoryDraft): boolean => {
  const [typed, kept] = [typedLaboratory(draft), draft.kept.value];
  return typed.name !== kept.name || typed.lines.join('\n') !== kept.lines.join('\n');
};
export const heldLaboratory = new HeldTyping<LaboratoryDraft>('laboratory', isTyped);

/** In the form in which it is kept: no blank lines. */
export const typedLaboratory = ({ name, lines }: LaboratoryDraft): Laboratory => ({
  name: name.value.trim(),
  lines: lines.value
    .split('\n')
    .map((line) => line.trim().slice(0, NAME_LENGTH_MAX))
    .filter((line) => line !== ''),
});

/** What the archive answers; it stands in the form unless something else is typed there. */
export function takeKept(draft: LaboratoryDraft, kept: Laboratory | null): void {
  const wasTyped = isTyped(draft);
  batch(() => {
    draft.kept.value = kept ?? UNNAMED;
    if (wasTyped) return;
    draft.name.value = draft.kept.value.name;
    draft.lines.value = draft.kept.value.lines.join('\n');
  });
}
