/** Who issues certificates here: stands at the head of each. */
import { type Signal, signal, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { NAME_LENGTH_MAX } from '../../../core/limits.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock, Field } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { errand } from '../../store/errand.ts';
import { HeldTyping, useHeldTyping } from '../../store/held-typing.ts';
import { archiveGeneration, request, session } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';

/** As many as the contract takes: more push the certificate itself off its first page. */
const LINES_MAX = 8;

const saving = errand();

/** Of the archive; `changed` once something was typed, which what is kept must not overwrite. */
const held = new HeldTyping<{
  readonly name: Signal<string>;
  readonly lines: Signal<string>;
  readonly changed: Signal<boolean>;
}>('laboratory', ({ changed }) => changed.value);

export function LaboratoryForm({ onKept }: { readonly onKept?: () => void }) {
  const text = words.value.set.certificate;
  const { name, lines, changed } = useHeldTyping(held, 'laboratory', () => ({
    name: signal(''),
    lines: signal(''),
    changed: signal(false),
  }));
  const known = useSignal<boolean | null>(null);
  const tried = useSignal(false);
  const connected = session.value !== null;
  useEffect(() => {
    if (!connected) return;
    void request('laboratory.get', {}).then((answer) => {
      if (!answer.ok) return;
      known.value = answer.value !== null;
      if (changed.value) return;
      name.value = answer.value?.name ?? '';
      lines.value = answer.value?.lines.join('\n') ?? '';
    });
  }, [connected, archiveGeneration.value]);
  const split = lines.value
    .split('\n')
    .map((line) => line.trim().slice(0, NAME_LENGTH_MAX))
    .filter((line) => line !== '');
  const save = async () => {
    tried.value = true;
    if (name.value.trim() === '' || split.length > LINES_MAX) return;
    const saved = await saving.run(() =>
      request('laboratory.save', { name: name.value.trim(), lines: split }),
    );
    if (saved === null) return;
    known.value = true;
    tried.value = false;
    changed.value = false;
    say(text.laboratoryKept);
    onKept?.();
  };
  return (
    <details class="laboratory" id="laboratory" open={known.value === false || changed.value}>
      <summary>{text.laboratory}</summary>
      {known.value === false ? <p class="pencil">{text.unnamed}</p> : null}
      <div class="laboratory-fields">
        <Field
          id="laboratory-name"
          label={text.laboratoryName}
          value={name.value}
          lengthMax={NAME_LENGTH_MAX}
          fault={tried.value && name.value.trim() === '' ? text.laboratoryNeeded : null}
          onInput={(value) => {
            name.value = value;
            changed.value = true;
          }}
        />
        <Field
          label={text.laboratoryLines}
          hint={text.laboratoryLinesHint}
          lines
          value={lines.value}
          fault={tried.value && split.length > LINES_MAX ? text.tooManyLines : null}
          onInput={(value) => {
            lines.value = value;
            changed.value = true;
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
