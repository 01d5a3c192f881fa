/** Where readings can come from: the simulated frame first, then the ports found, then a path or an address typed by hand. */
import { batch } from '@preact/signals';
import type { ListedPort, Source } from '../../../core/contract/source.ts';
import { Button } from '../../design/button.tsx';
import { Field } from '../../design/field.tsx';
import { goTo } from '../../store/place.ts';
import { draft, draftFromFile } from '../../store/specimen-draft.ts';
import { offeredScenario, scenarios } from './scenarios.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { serialSource, simulatedSource, typedSource } from './readout-choice.ts';
import './source-list.css';

export interface SourceListProps {
  readonly ports: readonly ListedPort[];
  readonly note: string | null;
  readonly chosen: Source;
  readonly onChoose: (source: Source) => void;
  readonly onRefresh: () => void;
  readonly typedPath: string;
  readonly onTypePath: (path: string) => void;
}

export function SourceList({
  ports,
  note,
  chosen,
  onChoose,
  onRefresh,
  typedPath,
  onTypePath,
}: SourceListProps) {
  const text = words.value.readout;
  const path = chosen.kind === 'serial' ? chosen.path : null;
  const listed = ports.some((p) => p.path === path);
  return (
    <fieldset class="sources">
      <legend>{text.where}</legend>
      <label class="source">
        <input
          type="radio"
          name="source"
          checked={chosen.kind === 'simulated'}
          onChange={() => onChoose(simulatedSource())}
        />
        <strong>{text.simulated}</strong>
        <span class="source-more">{text.simulatedHint}</span>
      </label>
      {chosen.kind === 'simulated' ? (
        <div class="field scenario">
          <label for="scenario">{text.scenario}</label>
          <select
            id="scenario"
            class="entry"
            value={chosen.scenario}
            onChange={(event) => onChoose(simulatedSource(event.currentTarget.value))}
          >
            {scenarios.value.map((scenario) => (
              <option key={scenario.name} value={scenario.name}>
                {told(scenario.title)}
              </option>
            ))}
          </select>
          <ScenarioNotes name={chosen.scenario} />
          <ScenarioSpecimen name={chosen.scenario} />
        </div>
      ) : null}
      <div class="sources-head">
        <h2>{text.ports}</h2>
        <Button kind="compact" onPress={onRefresh}>
          {text.refresh}
        </Button>
      </div>
      {ports.length === 0 ? <p class="pencil small">{text.noPorts}</p> : null}
      {ports.map((port) => (
        <label class="source" key={port.path}>
          <input
            type="radio"
            name="source"
            checked={path === port.path}
            onChange={() => onChoose(serialSource(port))}
          />
          <strong class="number">{port.path}</strong>
          <span class="source-more">{identityWords(port)}</span>
        </label>
      ))}
      {note === null ? null : <p class="pencil small">{note}</p>}
      <div class="source">
        {/* Beside a field that is pressed for itself: as large as a glove, not as its ring. */}
        <label class="source-pick">
          <input
            type="radio"
            name="source"
            aria-label={text.byHand}
            checked={chosen.kind !== 'simulated' && !listed}
            onChange={() => onChoose(typedSource(typedPath))}
          />
        </label>
        <Field
          label={text.byHand}
          hint={text.byHandHint}
          value={typedPath}
          number
          onInput={(typed) => {
            batch(() => {
              onTypePath(typed);
              onChoose(typedSource(typed));
            });
          }}
        />
      </div>
    </fieldset>
  );
}

function ScenarioNotes({ name }: { readonly name: string }) {
  const notes = offeredScenario(name)?.notes ?? null;
  return notes === null ? null : <p class="pencil small">{told(notes)}</p>;
}

/** The simulated frame pulls a specimen of its own: with another section entered the strength would be nonsense. */
function ScenarioSpecimen({ name }: { readonly name: string }) {
  const text = words.value.readout;
  const scenario = offeredScenario(name);
  if (scenario === undefined) return null;
  if (JSON.stringify(draft.value.measured) === JSON.stringify(draftFromFile(scenario.specimen).measured))
    return null;
  return (
    <div class="actions">
      <Button
        kind="compact"
        onPress={() => {
          draft.value = draftFromFile(scenario.specimen);
          goTo('specimen');
        }}
      >
        {text.takeSpecimen(scenario.specimen.id)}
      </Button>
      <span class="pencil small">{text.takeSpecimenWhy}</span>
    </div>
  );
}

function identityWords(port: ListedPort): string {
  const text = words.value.readout;
  const { manufacturer, vendorId, productId, serialNumber, location } = port.identity;
  return [
    manufacturer,
    vendorId === undefined ? undefined : `${text.vendor} ${vendorId}`,
    productId === undefined ? undefined : `${text.product} ${productId}`,
    serialNumber === undefined ? undefined : `${text.serial} ${serialNumber}`,
    location,
  ]
    .filter((part) => part !== undefined)
    .join(' · ');
}
