/** One strip beneath the plots: the rate of the moment against the window that the chosen method allows. */
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { type LiveSpeed, liveSpeed } from '../../../core/results/live-speed.ts';
import { SPEED_METHODS, SPEED_METHOD_IDS, type SpeedMethodId } from '../../../core/results/speed-methods.ts';
import type { SpeedWindow } from '../../../core/results/speed-windows.ts';
import { UNITS, convert } from '../../../core/quantity/units.ts';
import { sayAloud } from '../../design/said.tsx';
import { displayUnit } from '../../numbers/display-unit.ts';
import { significant } from '../../numbers/format.ts';
import { followedPull, readingsArrived, sessionState } from '../../store/session-store.ts';
import { draftArea, readDraft } from '../../store/specimen-draft.ts';
import { language, units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { plan } from './pull-plan.ts';
import { RateRun } from './rate-run.ts';
import './rate-strip.css';

const SIGN = { falling: '↓', below: '▼', inside: '■', above: '▲' } as const;
const DIGITS = 3;
/** How far the scale goes beyond the outermost limits. */
const BEYOND = 4;

export function chosenMethod(): SpeedMethodId | null {
  return SPEED_METHOD_IDS.find((id) => id === plan.value.speedMethod) ?? null;
}

export function RateStrip() {
  const method = chosenMethod();
  const followed = followedPull.value;
  if (method === null || followed === null) return null;
  return <Strip key={followed.pullId} method={method} />;
}

function Strip({ method }: { readonly method: SpeedMethodId }) {
  const text = words.value.rateStrip;
  const columns = followedPull.value?.columns;
  const area = draftArea.value;
  const read = readDraft.value;
  const areaMm2 = area?.ok === true ? area.area.areaMm2 : null;
  const specimen = read.ok ? read.specimen : null;
  const gaugeMm = specimen?.extensometerGaugeLengthMm ?? specimen?.gaugeLength?.mean ?? null;
  const parallelMm = specimen?.parallelLengthMm ?? null;
  const run = useMemo(
    () => (columns === undefined ? null : new RateRun(columns, { areaMm2, gaugeMm, parallelMm })),
    [columns, areaMm2, gaugeMm, parallelMm],
  );
  const pulling = sessionState.value === 'pulling';
  const arrived = readingsArrived.value;
  const now = useMemo(() => (pulling ? (run?.catchUp() ?? null) : null), [run, arrived, pulling]);
  const speed = now === null ? null : liveSpeed(SPEED_METHODS[method], now.stage, now.rates);
  const place = speed?.place ?? null;
  const before = useRef(place);
  useEffect(() => {
    if (place === before.current) return;
    before.current = place;
    if (place !== null) sayAloud(text.places[place]);
  }, [place]);
  return (
    <section class="rate-strip" aria-label={text.title} data-place={place ?? undefined}>
      <p class="rate-words">
        <strong>
          {speed === null
            ? now === null
              ? sessionState.value === 'broken' || sessionState.value === 'stopped'
                ? text.isOver
                : text.waits
              : text.noWindow(text.stages[now.stage])
            : `${text.quantities[speed.quantity]} ${speed.rate === null ? '–' : rateText(speed.rate, speed)}`}
        </strong>
        <span class="rate-place">
          {speed === null ? '' : place === null ? text.cantTell : `${SIGN[place]} ${text.places[place]}`}
        </span>
      </p>
      <Scale speed={speed} />
      <p class="rate-allowed pencil small">
        <span class="rate-method">
          {text.methods[method]}
          {speed === null ? '' : ` · ${text.stages[speed.stage]} · `}
        </span>
        {speed === null ? '' : text.allowed(allowedText(speed))}
      </p>
    </section>
  );
}

function unitOf({ quantity }: LiveSpeed): { text: string; of: (rate: number) => number } {
  if (quantity !== 'stress-rate') return { text: '1/s', of: (rate) => rate };
  const unit = displayUnit(UNITS['MPa/s'].dimension, units.value);
  return { text: unit, of: (rate) => convert(rate, 'MPa/s', unit) };
}

function rateText(rate: number, speed: LiveSpeed): string {
  const unit = unitOf(speed);
  return `${significant(unit.of(rate), DIGITS, language.value)} ${unit.text}`;
}

function allowedText(speed: LiveSpeed): string {
  const unit = unitOf(speed);
  const text = (value: number): string => significant(unit.of(value), DIGITS, language.value);
  const limits = speed.rule.windows.map(({ lower, upper }) =>
    lower === undefined ? words.value.rateStrip.upTo(text(upper)) : `${text(lower)}–${text(upper)}`,
  );
  return `${limits.join(words.value.rateStrip.or)} ${unit.text}`;
}

/** Logarithmic, since windows reach over a decade: the allowed stretches hatched, the rate a post with a head. */
function Scale({ speed }: { readonly speed: LiveSpeed | null }) {
  const windows = speed?.rule.windows ?? [];
  const least = Math.min(...windows.map(lowerEnd));
  const most = Math.max(...windows.map(({ upper }) => upper));
  const from = Math.log(least / BEYOND);
  const to = Math.log(most * BEYOND);
  const at = (rate: number): number =>
    rate <= 0 ? 0 : 100 * Math.min(1, Math.max(0, (Math.log(rate) - from) / (to - from)));
  return (
    <div class="rate-scale" aria-hidden="true">
      {windows.map((one) => (
        <span
          key={one.upper}
          class="rate-window"
          style={{
            left: `${at(one.lower ?? 0).toFixed(1)}%`,
            right: `${(100 - at(one.upper)).toFixed(1)}%`,
          }}
        />
      ))}
      {speed === null || speed.rate === null ? null : (
        <span class="rate-now" style={{ left: `${at(speed.rate).toFixed(1)}%` }} />
      )}
    </div>
  );
}

/** A window without a lower limit is drawn a decade and a half down. */
const lowerEnd = ({ lower, upper }: SpeedWindow): number => lower ?? upper / 30;
