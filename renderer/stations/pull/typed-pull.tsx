/** Beside the plan: for a frame without a port the values of its display are typed, and kept as typed. */
import { signal } from '@preact/signals';
import { typedDoubt } from '../../../core/pull/typed-plausibility.ts';
import { typedValues } from '../../../core/pull/typed-values.ts';
import type { Dimension } from '../../../core/quantity/units.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock, Field } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { InstrumentChoice } from '../../instruments/chosen-instruments.tsx';
import { TYPED_READOUT, chosenIds, instrumentChoice } from '../../instruments/register.ts';
import { displayUnit } from '../../numbers/display-unit.ts';
import { errand } from '../../store/errand.ts';
import { holdsTyping } from '../../store/held-typing.ts';
import { goTo } from '../../store/place.ts';
import { archivePath, recording, request } from '../../store/session-store.ts';
import { draft, draftIsKept, readDraft, withUnit } from '../../store/specimen-draft.ts';
import { useSteps } from '../../store/taken-back.ts';
import { units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { typedPullId } from '../opened-pull.ts';
import { plan } from './pull-plan.ts';

const BLANK = { load: '', yieldLoad: '', elongation: '' };
type TypedField = keyof typeof BLANK;

const entered = signal(BLANK);
/** In which it was typed last. */
let ofArchive = '';
holdsTyping(
  'typedPull',
  () => Object.values(entered.value).some((text) => text.trim() !== ''),
  (butOf) => {
    if (butOf !== ofArchive) entered.value = BLANK;
  },
);
/** The fields are judged once keeping was tried. */
const tried = signal(false);
const keeping = errand();

function change(field: TypedField, text: string): void {
  ofArchive = archivePath.peek();
  entered.value = { ...entered.value, [field]: text };
  tried.value = false;
  keeping.fault.value = null;
}

type Checked =
  | { readonly ok: true; readonly typed: ReturnType<typeof typedValues.parse> }
  | { readonly ok: false; readonly field: string; readonly sentence: string };

function checked(): Checked {
  const filled = Object.fromEntries(Object.entries(entered.value).filter(([, text]) => text.trim() !== ''));
  const read = typedValues.safeParse({ load: '', ...filled });
  if (read.success) return { ok: true, typed: read.data };
  const [issue] = read.error.issues;
  const field = String(issue?.path[0] ?? 'load');
  return { ok: false, field, sentence: issue?.message ?? '' };
}

export function TypedPull() {
  const text = words.value.typed;
  useSteps({ instrumentsUsed: instrumentChoice });
  const outcome = tried.value ? checked() : null;
  const specimen = readDraft.value;
  const doubt = outcome?.ok === true && specimen.ok ? typedDoubt(outcome.typed, specimen.specimen) : null;
  const faultOf = (field: TypedField): string | undefined =>
    outcome?.ok === false && outcome.field === field
      ? outcome.sentence
      : doubt?.field === field
        ? doubt.sentence
        : undefined;
  const asked = doubt?.kind === 'asked';

  const keep = async (sure: boolean) => {
    tried.value = true;
    const now = checked();
    const { specimenId, id } = draft.value;
    if (!now.ok || specimenId === null || !specimen.ok) return;
    const doubtNow = typedDoubt(now.typed, specimen.specimen);
    if (doubtNow !== null && (doubtNow.kind === 'refused' || !sure)) return;
    const operator = plan.value.operator.trim();
    const kept = await keeping.run(() =>
      request('pull.type', {
        specimenId,
        typed: now.typed,
        sure,
        instruments: chosenIds(TYPED_READOUT),
        ...(operator === '' ? {} : { operator }),
      }),
    );
    if (kept === null) return;
    entered.value = BLANK;
    tried.value = false;
    typedPullId.value = kept.pullId;
    say(text.kept(id));
    goTo('fracture');
  };

  const field = (name: TypedField, hint: string, dimension: Dimension) => (
    <Field
      id={`typed-${name}`}
      label={text[name]}
      hint={hint}
      value={entered.value[name]}
      number
      placeholder={dimension === 'strain' ? '22 %' : `0 ${displayUnit(dimension, units.value)}`}
      fault={faultOf(name)}
      onInput={(value) => change(name, value)}
      onLeave={() => {
        if (dimension === 'force')
          entered.value = { ...entered.value, [name]: withUnit(entered.value[name], dimension, units.value) };
      }}
    />
  );
  return (
    <details class="plan typed-pull" id="typed-pull">
      <summary>
        <h2>{text.title}</h2>
      </summary>
      <p class="pencil small">{text.means}</p>
      {field('load', text.loadHint, 'force')}
      {field('yieldLoad', text.yieldHint, 'force')}
      {field('elongation', text.elongationHint, 'strain')}
      <InstrumentChoice readout={TYPED_READOUT} kind="frame" />
      <FaultBlock fault={keeping.fault.value} />
      <div class="actions">
        <Button
          id="keep-typed"
          onPress={() => void keep(asked)}
          notNow={recording.value ? text.recording : draftIsKept.value ? undefined : text.needsSpecimen}
        >
          {asked ? text.sure : text.keep}
        </Button>
      </div>
    </details>
  );
}
