/** Who issues certificates here: stands at the head of each. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { NAME_LENGTH_MAX } from '../../../core/limits.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock, Field } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { errand } from '../../store/errand.ts';
import { useHeldTyping } from '../../store/held-typing.ts';
import { archiveGeneration, request, session } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';
import {
  LABORATORY,
  blankLaboratory,
  heldLaboratory,
  takeKept,
  typedLaboratory,
} from './laboratory-draft.ts';

/** As many as the contract takes: more push the certificate itself off its first page. */
const LINES_MAX = 8;

const saving = errand();

export function LaboratoryForm({ onKept }: { readonly onKept?: () => void }) {
  const text = words.value.set.certificate;
  const draft = useHeldTyping(heldLaboratory, LABORATORY, blankLaboratory);
  const { name, lines } = draft;
  const known = useSignal<boolean | null>(null);
  const tried = useSignal(false);
  /** Folded together under the one who types it would be lost from sight, also where it says again what is kept. */
  const staysOpen = useSignal(heldLaboratory.isTyped(LABORATORY));
  const connected = session.value !== null;
  useEffect(() => {
    if (!connected) return;
    void request('laboratory.get', {}).then((answer) => {
      if (!answer.ok) return;
      known.value = answer.value !== null;
      takeKept(draft, answer.value);
    });
  }, [connected, archiveGeneration.value]);
  const typed = typedLaboratory(draft);
  const save = async () => {
    tried.value = true;
    if (typed.name === '' || typed.lines.length > LINES_MAX) return;
    const saved = await saving.run(() => request('laboratory.save', typed));
    if (saved === null) return;
    known.value = true;
    tried.value = false;
    draft.kept.value = typed;
    staysOpen.value = false;
    say(text.laboratoryKept);
    onKept?.();
  };
  return (
    <details class="laboratory" id="laboratory" open={known.value === false || staysOpen.value}>
      <summary>{text.laboratory}</summary>
      {known.value === false ? <p class="pencil">{text.unnamed}</p> : null}
      <div class="laboratory-fields">
        <Field
          id="laboratory-name"
          label={text.laboratoryName}
          value={name.value}
          lengthMax={NAME_LENGTH_MAX}
          fault={tried.value && typed.name === '' ? text.laboratoryNeeded : null}
          onInput={(value) => {
            name.value = value;
            staysOpen.value = true;
          }}
        />
        <Field
          label={text.laboratoryLines}
          hint={text.laboratoryLinesHint}
          lines
          value={lines.value}
          fault={tried.value && typed.lines.length > LINES_MAX ? text.tooManyLines : null}
          onInput={(value) => {
            lines.value = value;
            staysOpen.value = true;
          }}
        />
      </div>
      <FaultBlock fault={saving.fault.value} />
      <div class="actions">
        <Button kind="compact" id="keep-laboratory" onPress={() => void save()}>
          {text.laboratorySave}
        </Button>
      </div>
    </details>
  );
}
