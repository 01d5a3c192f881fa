/** With what is measured: one instrument of each kind, its calibration beside it. */
import { useId } from 'preact/hooks';
import type { InstrumentKind } from '../../core/instruments/instrument.ts';
import { Button } from '../design/button.tsx';
import { factorsNotNow, setFactors } from '../stations/readout/set-factors.ts';
import { goTo } from '../store/place.ts';
import { useSteps } from '../store/taken-back.ts';
import { words } from '../words/words.ts';
import { beforeStart } from './before-start.ts';
import { CalibrationWord } from './calibration-word.tsx';
import { concernWords } from './concern-words.ts';
import { choose, chosenOf, instrumentChoice, offered, register } from './register.ts';
import './chosen-instruments.css';

export function InstrumentChoice({
  readout,
  kind,
}: {
  readonly readout: string;
  readonly kind: InstrumentKind;
}) {
  const text = words.value.instruments;
  const id = useId();
  const chosen = chosenOf(readout, kind);
  const line = register.value.find(({ instrumentId }) => instrumentId === chosen);
  return (
    <div class="field instrument-choice">
      <label for={id}>{text.kinds[kind]}</label>
      <select
        id={id}
        class="entry"
        data-kind={kind}
        value={chosen === null ? '' : String(chosen)}
        onChange={({ currentTarget: { value } }) =>
          choose(readout, kind, value === '' ? null : Number(value))
        }
      >
        <option value="">{text.chosen.nobody}</option>
        {offered(kind).map(({ instrumentId, form }) => (
          <option key={instrumentId} value={String(instrumentId)}>
            {form.serialNumber === undefined ? form.name : `${form.name}, ${form.serialNumber}`}
          </option>
        ))}
      </select>
      {line === undefined ? null : (
        <p class="small">
          <CalibrationWord state={line.state} daysLeft={line.daysLeft} />
        </p>
      )}
    </div>
  );
}

/** In the readout station: what the open readout measures with, and what speaks against it. */
export function ReadoutInstruments({ readout }: { readonly readout: string }) {
  const text = words.value.instruments.chosen;
  const before = beforeStart.value;
  useSteps({ instrumentsUsed: instrumentChoice }, readout);
  return (
    <section class="block readout-instruments" aria-label={text.title}>
      <h2>{text.title}</h2>
      {before?.factors === 'simulated' ? (
        <p class="pencil">{text.simulated}</p>
      ) : before?.factors === 'replayed' ? (
        <p class="pencil">{text.replayed}</p>
      ) : (
        <>
          <div class="instrument-choices">
            {(['frame', 'force-channel', 'extensometer'] as const).map((kind) => (
              <InstrumentChoice key={kind} readout={readout} kind={kind} />
            ))}
          </div>
          <CalibrationConcerns />
        </>
      )}
      <div class="actions">
        <Button kind="quiet" onPress={() => goTo('instruments')}>
          {text.register}
        </Button>
      </div>
    </section>
  );
}

/** Beside the plan of a pull too: nobody is to make ready without having seen it. */
export function CalibrationConcerns() {
  const text = words.value.instruments;
  const before = beforeStart.value;
  if (before === null) return null;
  if (before.factors === 'simulated') return <p class="pencil small">{text.chosen.simulated}</p>;
  if (before.concerns.length === 0)
    return before.used.length === 0 ? null : (
      <p class="small">
        <CalibrationWord state="valid" daysLeft={null} /> {before.used.map(({ name }) => name).join(', ')}
      </p>
    );
  return (
    <ul class="calibration-concerns" id="calibration-concerns">
      {before.concerns.map((one) => (
        <li key={`${one.code} ${String(one.instrumentId)}`}>
          <span aria-hidden="true">▲</span> {concernWords(one, before.used, words.value, true)}
          {one.code === 'default-factors' ? <SetFactors /> : null}
        </li>
      ))}
    </ul>
  );
}

/** Where they are missed, and not only at the station that has them. */
function SetFactors() {
  const text = words.value.learn.factors;
  return (
    <div class="set-factors">
      <Button kind="compact" id="set-factors" notNow={factorsNotNow()} onPress={() => void setFactors()}>
        {text.set}
      </Button>
      <span class="pencil small">{text.setMeans}</span>
    </div>
  );
}
