/** The table of what was found: only the rows that can be seen are in the page, so that 100 000 are as smooth as ten. */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { TargetedKeyboardEvent } from 'preact';
import { type FoundPull, SORTED_AS_TEXT } from '../../core/contract/search-requests.ts';
import { READINGS_ORIGINS } from '../../core/pull/readings-origin.ts';
import { usuallyReported } from '../../core/results/reported-in.ts';
import { thumbnailPath } from '../../core/curve/thumbnail.ts';
import { say } from '../design/said.tsx';
import { ReadingsMark } from '../design/readings-mark.tsx';
import { COPY_ROWS } from '../keys/copy-rows.ts';
import { displayUnit } from '../numbers/display-unit.ts';
import { asReported, fixed, placesOf } from '../numbers/format.ts';
import { OutcomeWord } from '../stations/set/outcome-word.tsx';
import { dateOfFound } from '../exchange/day-of-pull.ts';
import { archivePullId } from '../store/place.ts';
import { language, units } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { copyFound } from './copy-found.ts';
import { saidOfSet, unrounded } from './found-columns.ts';
import {
  type FoundColumn,
  SORTS,
  columns,
  found,
  lines,
  linesStand,
  needLines,
  needPictures,
  needVerdicts,
  order,
  pictures,
} from './found-pulls.ts';
import { isMarked, marked, toggleMark } from './marked-pulls.ts';
import { peakText } from './peak-text.ts';

/** A main target is never smaller. */
const ROW_REM = 2.75;
/** Rows drawn above and below what can be seen. */
const SPARE_ROWS = 8;
/** Lines are asked for in blocks. */
const BLOCK = 50;
/** Pictures wait until scrolling has paused. */
const PAUSE_MS = 120;
/** No browser draws a box higher than this; beyond it the scroll bar stands for more rows a pixel. */
const HEIGHT_PX_MAX = 12_000_000;
const PICTURE = { width: 56, height: 34 };

const rowPx = (): number =>
  ROW_REM * (Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16);

export function FoundTable({ narrow }: { readonly narrow: boolean }) {
  const text = words.value.find;
  const ids = found.value ?? new Float64Array(0);
  const box = useRef<HTMLDivElement>(null);
  const top = useSignal(0);
  const height = useSignal(600);
  const row = useSignal(rowPx());
  const active = useSignal(0);
  /** By Ctrl+A, whatever is marked: what is copied next is all that was found. */
  const allChosen = useSignal(false);
  const shown: readonly FoundColumn[] = narrow
    ? columns.value.filter((one) => one === 'picture' || one === 'specimen' || one === 'strength')
    : columns.value;

  const showsVerdicts = shown.includes('verdict') || shown.includes('questionable');

  const count = ids.length;
  const seen = Math.max(1, Math.floor(height.value / row.value));
  const spread = Math.min(count * row.value, HEIGHT_PX_MAX);
  const topMax = Math.max(0, spread - height.value);
  const first = topMax === 0 ? 0 : Math.round((top.value / topMax) * Math.max(0, count - seen));
  const from = Math.max(0, first - SPARE_ROWS);
  const to = Math.min(count, first + seen + SPARE_ROWS);
  const visible = [...ids.subarray(from, to)];

  useEffect(() => {
    const element = box.current;
    if (element === null) return;
    const measure = (): void => {
      height.value = element.clientHeight;
      row.value = rowPx();
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    // Most of its rows are not in the page.
    const copy = (event: Event): void => {
      event.preventDefault();
      void copyFound(columnName, allChosen.value ? 'all' : 'marked');
    };
    element.addEventListener(COPY_ROWS, copy);
    return () => {
      watch.disconnect();
      element.removeEventListener(COPY_ROWS, copy);
    };
  }, []);
  useEffect(() => {
    active.value = Math.min(active.value, Math.max(0, count - 1));
    const start = Math.floor(from / BLOCK) * BLOCK;
    void needLines([...ids.subarray(start, Math.min(count, Math.ceil(to / BLOCK) * BLOCK))].slice(0, 500));
    const timer = setTimeout(() => {
      if (shown.includes('picture')) void needPictures(visible);
      if (showsVerdicts) void needVerdicts(visible);
    }, PAUSE_MS);
    return () => clearTimeout(timer);
  }, [ids, from, to, shown.includes('picture'), showsVerdicts, linesStand.value]);

  const show = (index: number): void => {
    const wanted = Math.min(count - 1, Math.max(0, index));
    active.value = wanted;
    const element = box.current;
    if (element === null || (wanted >= first && wanted < first + seen)) return;
    const firstWanted = wanted < first ? wanted : wanted - seen + 1;
    element.scrollTop = count <= seen ? 0 : (firstWanted / (count - seen)) * topMax;
  };
  useEffect(() => {
    allChosen.value = false;
  }, [ids]);
  const chooseAll = (event: TargetedKeyboardEvent<HTMLDivElement>): void => {
    const isCommand = (event.ctrlKey || event.metaKey) && !event.altKey && !event.shiftKey;
    if (!isCommand || event.key.toLowerCase() !== 'a') return;
    // The page's text, of which a table holds but the rows that can be seen, is nothing to choose.
    event.preventDefault();
    document.getSelection()?.removeAllRanges();
    allChosen.value = count > 0;
    if (allChosen.value) say(words.value.copy.allChosen(fixed(count, 0, language.value)));
  };
  const onKeyDown = (event: TargetedKeyboardEvent<HTMLDivElement>): void => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key === 'Escape' && allChosen.value) {
      event.preventDefault();
      event.stopPropagation();
    }
    if (event.key !== 'Shift') allChosen.value = false;
    const step = STEPS[event.key];
    if (step !== undefined) {
      event.preventDefault();
      show(step(active.value, seen, count));
    } else if (event.key === ' ' && event.target === box.current) {
      event.preventDefault();
      const id = ids[active.value];
      if (id !== undefined) toggleMark(id);
    } else if (event.key === 'Enter' && event.target === box.current) {
      event.preventDefault();
      const id = ids[active.value];
      if (id !== undefined) archivePullId.value = id;
    }
  };
  const template = [
    ...(narrow ? [] : [`${MARK_REM}rem`]),
    ...shown
      .map((one) => [leastRem(one), WIDTH[one][1]] as const)
      .map(([least, share]) => (share === 0 ? `${least}rem` : `minmax(${least}rem, ${share}fr)`)),
  ].join(' ');
  // Narrower than this the table scrolls sideways by itself.
  const least = shown.reduce((sum, one) => sum + leastRem(one) + GAP_REM, 1 + MARK_REM);
  const minWidth = narrow ? 0 : `${least}rem`;
  return (
    <div class="found" onKeyDown={chooseAll}>
      <div
        id="found-head"
        class="found-row found-head"
        role="row"
        style={{ gridTemplateColumns: template, minWidth }}
      >
        {narrow ? null : (
          <div role="columnheader">
            <span class="heard">{words.value.look.mark}</span>
          </div>
        )}
        {shown.map((column) => (
          <HeadCell key={column} column={column} />
        ))}
      </div>
      <div
        ref={box}
        id="found-pulls"
        class="found-rows"
        style={{ minWidth }}
        role="grid"
        aria-owns="found-head"
        tabIndex={0}
        aria-label={words.value.archive.title}
        aria-rowcount={count}
        aria-activedescendant={count === 0 ? undefined : `found-${String(active.value)}`}
        aria-description={text.keysHint}
        onScroll={(event) => (top.value = event.currentTarget.scrollTop)}
        onKeyDown={onKeyDown}
      >
        <div style={{ height: `${String(spread)}px`, position: 'relative' }}>
          {visible.map((id, i) => {
            const index = from + i;
            // Beyond the highest box the rows stand where the scroll bar is, not where their number would put them.
            const y = spread < HEIGHT_PX_MAX ? index * row.value : top.value + (index - first) * row.value;
            return (
              <div
                key={id}
                id={`found-${String(index)}`}
                role="row"
                aria-rowindex={index + 1}
                aria-selected={allChosen.value || archivePullId.value === id}
                class={`found-row${allChosen.value ? ' chosen' : ''}${index === active.value ? ' active' : ''}${archivePullId.value === id ? ' opened' : ''}`}
                style={{
                  gridTemplateColumns: template,
                  height: `${String(row.value)}px`,
                  transform: `translateY(${String(y)}px)`,
                }}
                onClick={() => {
                  allChosen.value = false;
                  active.value = index;
                  archivePullId.value = id;
                }}
              >
                {narrow ? null : <MarkCell pullId={id} />}
                {shown.map((column) => (
                  <div key={column} role="gridcell" class={AMOUNTS.has(column) ? 'amount number' : undefined}>
                    <Cell column={column} pullId={id} pull={lines.value.get(id)} />
                  </div>
                ))}
              </div>
            );
          })}
        </div>
      </div>
    </div>
  );
}

type Step = (at: number, seen: number, count: number) => number;
const STEPS: Readonly<Record<string, Step>> = {
  ArrowDown: (at) => at + 1,
  ArrowUp: (at) => at - 1,
  PageDown: (at, seen) => at + seen,
  PageUp: (at, seen) => at - seen,
  Home: () => 0,
  End: (_at, _seen, count) => count - 1,
};

const AMOUNTS: ReadonlySet<FoundColumn> = new Set<FoundColumn>([
  'peak',
  'strength',
  'unrounded',
  'yield',
  'elongation',
  'readings',
]);

/** Least width in rem, and the share of what is left over. */
const WIDTH: Readonly<Record<FoundColumn, readonly [least: number, share: number]>> = {
  picture: [3.8, 0],
  specimen: [10.6, 2],
  when: [9.5, 0.3],
  peak: [5.6, 0.8],
  strength: [5.6, 0.8],
  verdict: [7, 2],
  broke: [5.8, 1],
  set: [7, 1.4],
  operator: [3.8, 1],
  readings: [5, 0.6],
  questionable: [6.4, 0.6],
  unrounded: [9.4, 0.8],
  yield: [6, 0.8],
  elongation: [6.4, 0.8],
  rules: [7, 1.4],
  baseMetal: [6.4, 1.2],
  filler: [5, 1],
  heat: [5, 1],
  lot: [5, 1],
  welder: [4.5, 1],
};
/** Pounds-force and psi have three digits more than kN and MPa; percentages and counts are the same in both. */
const US_AMOUNT_REM = 1.4;
const LONGER_IN_US: ReadonlySet<FoundColumn> = new Set<FoundColumn>([
  'peak',
  'strength',
  'unrounded',
  'yield',
]);
export const leastRem = (column: FoundColumn): number =>
  WIDTH[column][0] + (units.value === 'US' && LONGER_IN_US.has(column) ? US_AMOUNT_REM : 0);
const GAP_REM = 0.7;
const MARK_REM = 2.2;

export function columnName(column: FoundColumn): string {
  const { archive, find } = words.value;
  const names: Readonly<Record<FoundColumn, string>> = {
    picture: find.picture,
    specimen: archive.specimen,
    when: archive.when,
    peak: archive.peak,
    strength: find.strength,
    verdict: find.verdict,
    broke: find.broke,
    set: find.set,
    operator: archive.operator,
    readings: archive.readings,
    questionable: find.doubts,
    unrounded: find.unrounded,
    yield: find.yield,
    elongation: find.elongation,
    rules: find.rules,
    baseMetal: find.baseMetal,
    filler: find.filler,
    heat: find.heat,
    lot: find.lot,
    welder: find.welder,
  };
  return names[column];
}

/** Chosen for looking at many together. */
function MarkCell({ pullId }: { readonly pullId: number }) {
  return (
    <div role="gridcell" class="mark-cell" onClick={(event) => event.stopPropagation()}>
      <label>
        <span class="heard">{words.value.look.markPull(String(pullId))}</span>
        <input
          type="checkbox"
          tabIndex={-1}
          checked={isMarked(marked.value, pullId)}
          onChange={() => toggleMark(pullId)}
        />
      </label>
    </div>
  );
}

function HeadCell({ column }: { readonly column: FoundColumn }) {
  const by = SORTS[column];
  const name = columnName(column);
  const amount = AMOUNTS.has(column) ? 'amount' : undefined;
  if (by === null)
    return (
      <div role="columnheader" class={amount} title={words.value.find.notSorted}>
        {name}
      </div>
    );
  const isBy = order.value.by === by;
  return (
    <div
      role="columnheader"
      class={amount}
      aria-sort={isBy ? (order.value.descending ? 'descending' : 'ascending') : 'none'}
    >
      <button
        type="button"
        class="sort"
        title={words.value.find.sortBy(name)}
        onClick={() =>
          (order.value = { by, descending: isBy ? !order.value.descending : !SORTED_AS_TEXT.has(by) })
        }
      >
        {name}
        <span aria-hidden="true">{isBy ? (order.value.descending ? ' ▾' : ' ▴') : ''}</span>
      </button>
    </div>
  );
}

function Cell({
  column,
  pullId,
  pull,
}: {
  readonly column: FoundColumn;
  readonly pullId: number;
  readonly pull: FoundPull | undefined;
}) {
  const none = words.value.common.none;
  if (column === 'picture') return <Picture pullId={pullId} />;
  if (pull === undefined) return <span class="pencil">…</span>;
  switch (column) {
    case 'specimen':
      return <SpecimenCell pull={pull} />;
    case 'when':
      // A time that was stated with the day is told where the pull is opened: the column has room for one of both.
      return pull.pulledOn === null ? (
        <span class="number">{dateOfFound(pull)}</span>
      ) : (
        <>
          <span class="number">{pull.pulledOn.slice(0, 10)}</span>{' '}
          <span class="pencil small">{words.value.exchange.isStated}</span>
        </>
      );
    case 'peak':
      return <>{pull.peakForceN === null ? none : peakText(pull.peakForceN)}</>;
    case 'strength':
      return <>{pull.strengthMpa === null ? none : stressText(pull.strengthMpa)}</>;
    case 'verdict':
      return <VerdictCell pull={pull} />;
    case 'broke':
      return <>{placeText(pull.place)}</>;
    case 'set':
      return <>{pull.setName ?? none}</>;
    case 'operator':
      return <>{pull.operator ?? none}</>;
    case 'readings':
      return <>{fixed(pull.readingCount, 0, language.value)}</>;
    case 'questionable':
      if (!pull.verdictKnown) return <NotJudged />;
      return <>{pull.questionable ? words.value.find.questionable : none}</>;
    case 'unrounded':
      return <>{pull.strengthMpa === null ? none : unroundedText(pull.strengthMpa)}</>;
    case 'yield':
      return <>{pull.yieldMpa === null ? none : stressText(pull.yieldMpa)}</>;
    case 'elongation':
      return <>{pull.elongationPercent === null ? none : percentText(pull.elongationPercent)}</>;
    case 'rules':
    case 'baseMetal':
    case 'filler':
    case 'heat':
    case 'lot':
    case 'welder':
      return <>{saidOfSet(pull, column) ?? none}</>;
  }
}

function SpecimenCell({ pull }: { readonly pull: FoundPull }) {
  const text = words.value.archive;
  return (
    <div class="found-specimen">
      <button
        type="button"
        class="open-pull"
        tabIndex={-1}
        aria-label={text.open(pull.specimenName)}
        onClick={() => (archivePullId.value = pull.pullId)}
      >
        {pull.specimenName}
      </button>
      <ReadingsMark readings={READINGS_ORIGINS.find((origin) => origin === pull.origin)} />
      {pull.origin === 'typed' ? <em class="small">{words.value.typed.mark}</em> : null}
      {pull.voidReason === null ? null : <strong class="small">{words.value.find.voided}</strong>}
      {pull.ended ? null : <em class="small">{words.value.find.recorded}</em>}
      {pull.interrupted ? <em class="small">{words.value.find.interrupted}</em> : null}
      <span class="pencil small pull-number">{words.value.set.pullNumber(String(pull.pullId))}</span>
    </div>
  );
}

function VerdictCell({ pull: { verdict, questionable, verdictKnown } }: { readonly pull: FoundPull }) {
  if (!verdictKnown) return <NotJudged />;
  if (verdict === null) return <span class="pencil">{words.value.common.none}</span>;
  return (
    <div class="found-verdict">
      <OutcomeWord outcome={verdict} />
      {questionable ? <em class="small">{words.value.find.questionable}</em> : null}
    </div>
  );
}

/** It is in a set, and nobody has judged since something changed. */
const NotJudged = () => <span class="pencil">{words.value.find.notJudged}</span>;

function placeText(place: string | null): string {
  const places: Readonly<Record<string, string>> = words.value.fracture.places;
  return place === null ? words.value.common.none : (places[place] ?? place);
}

function stressText(mpa: number): string {
  const reported = usuallyReported(mpa, units.value);
  return reported === null ? '' : `${asReported(reported.text, language.value)} ${reported.unit}`;
}

const percentText = (percent: number): string => `${fixed(percent, placesOf('%'), language.value)} %`;

/** As many figures as no instrument reaches, in the unit of the rounded one beside it. */
function unroundedText(mpa: number): string {
  const unit = usuallyReported(mpa, units.value)?.unit ?? displayUnit('stress', units.value);
  return `${unrounded(mpa, unit)} ${unit}`;
}

function Picture({ pullId }: { readonly pullId: number }) {
  const bytes = pictures.value.get(pullId);
  const { width, height } = PICTURE;
  return (
    <svg
      class="small-curve"
      width={width}
      height={height}
      viewBox={`-2 -2 ${width + 4} ${height + 4}`}
      aria-hidden="true"
    >
      {bytes === undefined ? null : (
        <path d={thumbnailPath(bytes, width, height)} fill="none" vector-effect="non-scaling-stroke" />
      )}
    </svg>
  );
}
