/** The stresses between which the elastic slope is fitted, set by hand; left empty, the program looks for them. */
import { useSignal } from '@preact/signals';
import { parseQuantity, quantityFaultSentence } from '../../../core/quantity/parse-quantity.ts';
import { Button } from '../../design/button.tsx';
import { Field } from '../../design/field.tsx';
import type { OpenedPull } from '../../store/kept-pull.ts';
import { units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import './slope-window-form.css';

export function SlopeWindowForm({ opened }: { readonly opened: OpenedPull }) {
  const text = words.value.result;
  const lower = useSignal('');
  const upper = useSignal('');
  const fault = useSignal<string | null>(null);
  const unit = units.value === 'SI' ? 'MPa' : 'ksi';
  const byHand = opened.slopeWindow.value !== null;
  const use = () => {
    const [from, to] = [lower.value, upper.value].map((typed) => {
      const rule = { dimension: 'stress', unitIfMissing: unit } as const;
      const outcome = parseQuantity(typed, rule);
      if (outcome.ok) return outcome.quantity.core;
      fault.value = quantityFaultSentence(outcome.fault, typed);
      return null;
    });
    if (typeof from !== 'number' || typeof to !== 'number') return;
    if (from < 0 || to <= from) {
      fault.value = text.slopeOrder;
      return;
    }
    fault.value = null;
    opened.slopeWindow.value = { lowerMpa: from, upperMpa: to };
    void opened.refresh();
  };
  const letProgram = () => {
    fault.value = null;
    opened.slopeWindow.value = null;
    void opened.refresh();
  };
  return (
    <section class="block slope-window" aria-labelledby="slope-window-title">
      <h2 id="slope-window-title">{text.slopeTitle}</h2>
      <p class="pencil">{byHand ? text.slopeByHand : text.slopeByProgram}</p>
      <div class="slope-fields">
        <Field
          label={text.slopeFrom}
          hint={unit}
          value={lower.value}
          number
          onInput={(typed) => (lower.value = typed)}
        />
        <Field
          label={text.slopeTo}
          hint={unit}
          value={upper.value}
          number
          onInput={(typed) => (upper.value = typed)}
        />
        <Button kind="compact" id="use-slope-window" onPress={use}>
          {text.slopeUse}
        </Button>
        {byHand ? (
          <Button kind="compact" id="drop-slope-window" onPress={letProgram}>
            {text.slopeDrop}
          </Button>
        ) : null}
      </div>
      {fault.value === null ? null : (
        <p class="field-fault" role="alert">
          {fault.value}
        </p>
      )}
    </section>
  );
}
