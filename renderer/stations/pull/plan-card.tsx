/** What the next pull will do by itself, in sentences with the figures open to change. */
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import { COMMIT_INTERVAL_MS_MAX } from '../../../core/limits.ts';
import { SPEED_METHOD_IDS } from '../../../core/results/speed-methods.ts';
import { Button } from '../../design/button.tsx';
import { FieldFault } from '../../design/field.tsx';
import { CalibrationConcerns } from '../../instruments/chosen-instruments.tsx';
import { fixed, quantityText } from '../../numbers/format.ts';
import { PersonField } from '../../people/person-field.tsx';
import { goTo } from '../../store/place.ts';
import { session } from '../../store/session-store.ts';
import { draft, draftArea, draftIsKept, withUnit } from '../../store/specimen-draft.ts';
import { language, units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { WayOn, kindOf } from '../marked-step.tsx';
import { HELD_OPEN_S, type PlanField, changePlan, plan, readPlan, suggestedAxes } from './pull-plan.ts';
import { SelectField } from '../set/select-field.tsx';
import './plan-card.css';

export function PlanCard() {
  const text = words.value.plan;
  const p = plan.value;
  const outcome = readPlan(p, words.value);
  const faultOf = (field: PlanField) => (outcome.ok ? undefined : outcome.faults.get(field));
  const axes = suggestedAxes.value;
  const shownForce = quantityText(axes.forceN, 'N', units.value, language.value);
  const shownExtension = quantityText(axes.extensionMm, 'mm', units.value, language.value);
  return (
    <section class="plan" aria-label={text.title}>
      <h2>{text.title}</h2>
      <PlannedSpecimen />
      {(session.value?.readout ?? null) === null ? (
        <div class="plan-missing">
          <p>{text.missingReadout}</p>
          <Button kind={kindOf('readout')} onPress={() => goTo('readout')}>
            {words.value.stations.readout}
          </Button>
        </div>
      ) : (
        <CalibrationConcerns />
      )}
      <Rule
        label={text.start}
        value={p.threshold}
        onInput={(threshold) => changePlan({ threshold })}
        onLeave={() => changePlan({ threshold: withUnit(plan.value.threshold, 'force', units.value) })}
        fault={faultOf('threshold')}
        off={p.startByHand}
      >
        <ByHand
          label={text.startByHand}
          checked={p.startByHand}
          onChange={(startByHand) => changePlan({ startByHand })}
        />
      </Rule>
      <Rule
        label={text.end}
        value={p.percentOfPeak}
        onInput={(percentOfPeak) => changePlan({ percentOfPeak })}
        fault={faultOf('percentOfPeak')}
        off={p.breakByHand}
      >
        <ByHand
          label={text.endByHand}
          checked={p.breakByHand}
          onChange={(breakByHand) => changePlan({ breakByHand })}
        />
      </Rule>
      <Rule
        label={text.tail}
        value={p.tailSeconds}
        onInput={(tailSeconds) => changePlan({ tailSeconds })}
        fault={faultOf('tailSeconds')}
        off={p.tailByHand}
      >
        <ByHand
          label={text.tailByHand}
          checked={p.tailByHand}
          onChange={(tailByHand) => changePlan({ tailByHand })}
        />
      </Rule>
      <p class="pencil small">{text.heldOpen(fixed(HELD_OPEN_S / 60, 0, language.value))}</p>
      <Rule
        label={text.expectedLoad}
        value={p.load}
        placeholder={shownForce}
        onInput={(load) => changePlan({ load })}
        onLeave={() => changePlan({ load: withUnit(plan.value.load, 'force', units.value) })}
        fault={faultOf('load')}
      />
      <Rule
        label={text.expectedExtension}
        value={p.extension}
        placeholder={shownExtension}
        onInput={(extension) => changePlan({ extension })}
        onLeave={() => changePlan({ extension: withUnit(plan.value.extension, 'length', units.value) })}
        fault={faultOf('extension')}
      />
      <SelectField
        id="speed-method"
        label={words.value.rateStrip.choose}
        value={p.speedMethod}
        options={[
          { value: '', label: words.value.rateStrip.none },
          ...SPEED_METHOD_IDS.map((id) => ({ value: id, label: words.value.rateStrip.methods[id] })),
        ]}
        onChoose={(value) => {
          const speedMethod = SPEED_METHOD_IDS.find((id) => id === value) ?? '';
          changePlan({ speedMethod });
        }}
      />
      <PersonField
        label={text.operator}
        hint={text.optional}
        value={p.operator}
        onInput={(operator) => changePlan({ operator })}
      />
      <p class="pencil small">{text.lostAtMost(String(COMMIT_INTERVAL_MS_MAX))}</p>
    </section>
  );
}

function PlannedSpecimen() {
  const text = words.value.plan;
  const outcome = draftArea.value;
  if (!draftIsKept.value)
    return (
      <div class="plan-missing">
        <p>{text.missingSpecimen}</p>
        <Button kind={kindOf('specimen')} onPress={() => goTo('specimen')}>
          {words.value.stations.specimen}
        </Button>
        <WayOn beside={['specimen', 'readout']} />
      </div>
    );
  return (
    <>
      <p class="plan-specimen">
        <span class="pencil small">{text.specimen}</span>
        <strong>{draft.value.id}</strong>
        {outcome?.ok === true ? (
          <span class="number">
            S<sub>0</sub> = {quantityText(outcome.area.areaMm2, 'mm²', units.value, language.value)}
          </span>
        ) : null}
      </p>
      <WayOn beside={['readout']} />
    </>
  );
}

interface RuleProps {
  readonly label: string;
  readonly value: string;
  readonly placeholder?: string;
  readonly onInput: (value: string) => void;
  readonly onLeave?: () => void;
  readonly fault: string | undefined;
  /** The figure plays no part while it is done by hand. */
  readonly off?: boolean;
  readonly children?: ComponentChildren;
}

function Rule({ label, value, placeholder, onInput, onLeave, fault, off = false, children }: RuleProps) {
  const id = useId();
  return (
    <div class="plan-rule">
      <label for={id}>{label}</label>
      {off ? (
        <span class="pencil">{words.value.plan.byHand}</span>
      ) : (
        <input
          id={id}
          class="entry number"
          type="text"
          value={value}
          placeholder={placeholder}
          autocomplete="off"
          aria-invalid={fault === undefined ? undefined : true}
          aria-describedby={fault === undefined ? undefined : `${id}-fault`}
          onInput={(event) => onInput(event.currentTarget.value)}
          onBlur={() => onLeave?.()}
        />
      )}
      {children}
      <FieldFault id={`${id}-fault`} sentence={fault} />
    </div>
  );
}

function ByHand({
  label,
  checked,
  onChange,
}: {
  readonly label: string;
  readonly checked: boolean;
  readonly onChange: (on: boolean) => void;
}) {
  return (
    <label class="by-hand-choice">
      <input type="checkbox" checked={checked} onChange={(event) => onChange(event.currentTarget.checked)} />
      {label}
    </label>
  );
}
