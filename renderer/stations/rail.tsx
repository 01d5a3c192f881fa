/** The rail of stations: where one is, what each station knows, and which one needs a person next. */
import { Button } from '../design/button.tsx';
import { Choice } from '../design/field.tsx';
import { goToArchive } from '../exchange/exchange-view.ts';
import { UNIT_SYSTEMS } from '../numbers/display-unit.ts';
import { recording } from '../store/session-store.ts';
import { STATIONS, type Station, goTo, place } from '../store/place.ts';
import { changeView, units } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { knownAt } from './known.ts';
import { stationNamed } from './marked-step.tsx';
import { ViewPanel } from './view-panel.tsx';
import './rail.css';

export function Rail() {
  const text = words.value;
  const onCall = stationNamed();
  return (
    <header class="rail">
      <GaugeSign />
      <nav aria-label={text.stations.rail} style={{ display: 'contents' }}>
        <ol>
          {STATIONS.map((station, index) => (
            <li key={station}>
              <Stop station={station} number={index + 1} onCall={station === onCall} />
            </li>
          ))}
        </ol>
      </nav>
      <div class="rail-side">
        <Button
          kind="compact"
          id="go-archive"
          pressed={place.value === 'archive'}
          keys={`Alt+${String(STATIONS.length + 1)}`}
          onPress={goToArchive}
        >
          {text.stations.archive}
        </Button>
        <Choice
          name={text.units.name}
          options={UNIT_SYSTEMS.map((system) => ({ value: system, label: text.units[system] }))}
          value={units.value}
          onChoose={(system) => changeView({ units: system })}
        />
        <ViewPanel />
      </div>
    </header>
  );
}

function Stop({
  station,
  number,
  onCall,
}: {
  readonly station: Station;
  readonly number: number;
  readonly onCall: boolean;
}) {
  const text = words.value.stations;
  const known = knownAt(station);
  return (
    <button
      type="button"
      class="stop"
      id={`go-${station}`}
      aria-current={place.value === station ? 'page' : undefined}
      aria-keyshortcuts={`Alt+${String(number)}`}
      title={known.text}
      onClick={() => goTo(station)}
    >
      <PunchMark done={known.done} onCall={onCall} />
      <span class="stop-name">
        {text[station]}
        {onCall ? <span class="flag">{recording.value ? text.now : text.next}</span> : null}
      </span>
      <span class="stop-known">{known.text}</span>
    </button>
  );
}

/** A ring where nothing is done yet, struck where it is; the one on call is filled. */
function PunchMark({ done, onCall }: { readonly done: boolean; readonly onCall: boolean }) {
  return (
    <svg class="punch" viewBox="0 0 22 22" aria-hidden="true">
      <circle
        cx="11"
        cy="11"
        r="7.5"
        fill={onCall ? 'var(--call)' : 'none'}
        stroke={onCall || done ? 'var(--ink)' : 'var(--edge)'}
        stroke-width="2"
      />
      {done ? <circle cx="11" cy="11" r="3.4" fill="var(--ink)" /> : null}
    </svg>
  );
}

/** The program's own sign: a gauge length between two punch marks. */
function GaugeSign() {
  return (
    <div class="rail-mark" title={words.value.program}>
      <svg width="34" height="34" viewBox="0 0 34 34" role="img" aria-label={words.value.program}>
        <path
          d="M2 8h6c3 0 4 4 7 4h4c3 0 4-4 7-4h6v18h-6c-3 0-4-4-7-4h-4c-3 0-4 4-7 4H2Z"
          fill="none"
          stroke="var(--ink)"
          stroke-width="2"
          stroke-linejoin="round"
        />
        <circle cx="13" cy="17" r="2.1" fill="var(--ink)" />
        <circle cx="21" cy="17" r="2.1" fill="var(--ink)" />
      </svg>
    </div>
  );
}
