/** Names of the curves with a piece of their line and marker: chosen, hidden and compared by mouse and by keys. */
import type { TargetedKeyboardEvent } from 'preact';
import { CROWD_CURVES_MIN } from '../../core/drawing/overlay-plot.ts';
import { markerPath } from '../../core/drawing/svg-text.ts';
import { penOf } from '../../core/drawing/pens.ts';
import { ReadingsMark } from '../design/readings-mark.tsx';
import { PALETTES } from '../design/palette.ts';
import { fixed } from '../numbers/format.ts';
import { groundColour } from '../plot/paint-drawing.ts';
import { numberOfPull } from '../store/elsewhere.ts';
import { language, theme } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { type LaidPull, laid, nameOfLaid } from './laid-pulls.ts';
import { chosen, comparedTo, cursor, hidden, toggleHidden } from './overlay-choice.ts';

export interface OverlayLegendProps {
  readonly notes: ReadonlyMap<number, string>;
  readonly chosenPull: number | null;
}

export function OverlayLegend({ notes, chosenPull }: OverlayLegendProps) {
  const text = words.value.look;
  const pulls = laid.value;
  const here = pulls.findIndex(({ pullId }) => pullId === (chosen.value ?? chosenPull));
  const choose = (index: number): void => {
    const one = pulls[Math.min(Math.max(index, 0), pulls.length - 1)];
    if (one === undefined) return;
    chosen.value = one.pullId;
    cursor.value = -1;
    document.getElementById(`laid-${String(one.pullId)}`)?.scrollIntoView({ block: 'nearest' });
  };
  const compare = (pullId: number): void => {
    comparedTo.value = comparedTo.value === pullId ? null : pullId;
  };
  const onKeyDown = (event: TargetedKeyboardEvent<HTMLUListElement>): void => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const one = pulls[here];
    const act: Readonly<Record<string, () => void>> = {
      ArrowDown: () => choose(here + 1),
      ArrowUp: () => choose(here - 1),
      Home: () => choose(0),
      End: () => choose(pulls.length - 1),
      ' ': () => (one === undefined ? undefined : toggleHidden(one.pullId)),
      d: () => (one === undefined ? undefined : compare(one.pullId)),
      Enter: () => document.getElementById('overlay-plot')?.focus(),
    };
    const does = act[event.key];
    if (does === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    does();
  };
  return (
    <section class="overlay-legend" aria-label={text.legend}>
      {pulls.length < 2 ? null : (
        <p class="pencil small compare-told" aria-hidden="true">
          {text.compareHead} Δ
        </p>
      )}
      <ul
        id="overlay-legend"
        role="listbox"
        tabIndex={0}
        aria-label={text.legend}
        aria-description={text.legendKeys}
        aria-activedescendant={here < 0 ? undefined : `laid-${String(pulls[here]?.pullId)}`}
        onKeyDown={onKeyDown}
      >
        {pulls.map((one, i) => (
          <Entry
            key={one.pullId}
            one={one}
            number={i}
            note={noteOf(one, notes, i === here)}
            isChosen={i === here}
            onCompare={() => compare(one.pullId)}
          />
        ))}
      </ul>
      {pulls.filter(({ pullId }) => !hidden.value.has(pullId)).length < CROWD_CURVES_MIN ? null : (
        <p class="pencil small">{text.crowd}</p>
      )}
      <p class="pencil small keys-told">{text.legendKeys}</p>
    </section>
  );
}

function noteOf(
  { pullId, state, pull, part, words: said }: LaidPull,
  notes: ReadonlyMap<number, string>,
  isChosen: boolean,
): string {
  const text = words.value.look;
  const isHidden = hidden.value.has(pullId);
  return [
    state === 'waiting'
      ? text.waiting
      : state === 'reading'
        ? readingWords(pull === null ? undefined : (part ?? 0))
        : (said?.() ?? ''),
    notes.get(pullId) ?? '',
    isHidden ? text.hiddenCurve : '',
    // A curve has no difference to itself.
    comparedTo.value === pullId ? (isChosen ? text.comparedItself : text.compared) : '',
  ]
    .filter((words) => words !== '')
    .join('; ');
}

function readingWords(part: number | undefined): string {
  const { reading, readPart } = words.value.look;
  return part === undefined ? reading : readPart(`${fixed(part * 100, 0, language.value)} %`);
}

function Entry({
  one,
  number,
  note,
  isChosen,
  onCompare,
}: {
  readonly one: LaidPull;
  readonly number: number;
  readonly note: string;
  readonly isChosen: boolean;
  readonly onCompare: () => void;
}) {
  const text = words.value.look;
  const isHidden = hidden.value.has(one.pullId);
  return (
    <li
      id={`laid-${String(one.pullId)}`}
      role="option"
      aria-selected={isChosen}
      class={isChosen ? 'chosen' : undefined}
      data-state={one.state}
      onClick={() => {
        chosen.value = one.pullId;
        cursor.value = -1;
      }}
    >
      {/* For the pointer; the keys of the list do the same, and the name says it. */}
      <span
        class="overlay-shown"
        aria-hidden="true"
        onClick={(event) => {
          event.stopPropagation();
          toggleHidden(one.pullId);
        }}
      >
        {isHidden ? '☐' : '☑'}
      </span>
      <PenSample number={number} />
      <span class="overlay-name">
        {nameOfLaid(one)}
        {/* One specimen may have been pulled twice. */}
        {one.name !== null && (one.state === 'ready' || one.state === 'failed') ? (
          <span class="pencil small"> {words.value.set.pullNumber(String(numberOfPull(one.pullId)))}</span>
        ) : null}
        <ReadingsMark readings={one.origin} />
        {note === '' ? null : <span class="pencil small overlay-note"> {note}</span>}
      </span>
      <span
        class={comparedTo.value === one.pullId ? 'overlay-compare compared' : 'overlay-compare'}
        aria-hidden="true"
        title={`${text.difference} ${nameOfLaid(one)}`}
        onClick={(event) => {
          event.stopPropagation();
          onCompare();
        }}
      >
        Δ
      </span>
    </li>
  );
}

/** The sample is drawn somewhat wider than the curve. */
const SAMPLE_WIDTH = 1.4;

function PenSample({ number }: { readonly number: number }) {
  const { stroke, marker, markerFill } = penOf(number);
  const palette = PALETTES[theme.value];
  const colour = groundColour(palette, stroke.colour);
  return (
    <svg class="pen-sample" width="44" height="14" viewBox="0 0 11 3.5" aria-hidden="true">
      <line
        x1="0"
        y1="1.75"
        x2="11"
        y2="1.75"
        stroke={colour}
        stroke-width={stroke.widthMm * SAMPLE_WIDTH}
        stroke-dasharray={stroke.dashMm?.join(' ')}
      />
      <path
        d={markerPath(marker, 5.5, 1.75, 1)}
        fill={markerFill === 'pen' ? colour : palette.paper}
        stroke={colour}
        stroke-width="0.3"
      />
    </svg>
  );
}
