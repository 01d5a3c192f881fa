/** Strength, yield and elongation of what was found: over the date, by heat, lot and welder, with limits and tolerance bound. */
import type { PictureForm } from '../../core/contract/picture-requests.ts';
import { computed } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { curvePlot } from '../../core/drawing/curve-plot.ts';
import { PICTURE_HEIGHT_MM, PICTURE_WIDTH_MM } from '../../core/drawing/picture-size.ts';
import type { CurvePlotInput } from '../../core/drawing/plot-input.ts';
import { individualsChart } from '../../core/statistics/individuals-chart.ts';
import {
  type TrendPicture,
  markedAxis,
  minimumLine,
  trendChart,
  trendGroups,
  trendPlot,
  trendPoints,
} from '../../core/trend/trend-plot.ts';
import { TREND_PULLS_MAX, offeredQuantities, trendRules } from '../../core/trend/trend-pull.ts';
import { draft, found } from '../archive/found-pulls.ts';
import { readSearch } from '../archive/search-draft.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { useWorkSaid } from '../design/told-in-parts.ts';
import { fixed } from '../numbers/format.ts';
import { SaveAs } from '../plot/save-as.tsx';
import { savePicture } from '../plot/save-picture.ts';
import { WordSelect } from '../stations/set/word-select.tsx';
import { errand } from '../store/errand.ts';
import { archiveView } from '../store/place.ts';
import { decimalSign } from '../numbers/number-form.ts';
import { language, units } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { VIEWS, quantity, shown, shownUnit, trendText, view } from './trend-choice.ts';
import {
  fault,
  gather,
  isGathering,
  isWhole,
  pulls,
  sets,
  setsJudged,
  setsNotJudged,
  stopGathering,
  wanted,
  withOthers,
} from './trend-pulls.ts';
import { TrendPictureView } from './trend-picture.tsx';
import { TrendFigures } from './trend-figures.tsx';
import '../stations/station.css';
import '../overlay/overlay-head.css';
import './trend.css';

const saving = errand();

const points = computed(() => trendPoints(pulls.value, quantity.value));
const rules = computed(() => trendRules(sets.value, pulls.value, quantity.value));

/** "yield Rp0.2", "proof strength Rp1". */
function quantityName(symbol: string): string {
  const { quantities, proofStrength, totalExtension } = words.value.look.trend;
  const usual: Readonly<Record<string, string>> = quantities;
  return usual[symbol] ?? (symbol.startsWith('Rt') ? totalExtension(symbol) : proofStrength(symbol));
}

function picture(): Omit<TrendPicture, 'widthMm' | 'heightMm'> {
  const text = words.value.look.trend;
  const name = quantityName(quantity.value);
  return {
    title: `${name}, ${text.views[view.value]}`,
    axis: markedAxis(
      `${name}, ${shownUnit()}`,
      points.value,
      (origin) => words.value.set.readings[origin].mark,
    ),
    decimalSign: decimalSign(language.value),
    shown,
    minimum: minimumLine(rules.value, {
      alone: (value) => text.minimum(trendText(value)),
      leastOf: (value) => text.leastMinimum(trendText(value)),
    }),
    words: text.words,
  };
}

/** Null where there is nothing to draw. */
function plot(widthMm: number, heightMm: number): CurvePlotInput | null {
  const its = { ...picture(), widthMm, heightMm };
  if (points.value.length === 0) return null;
  if (view.value !== 'individuals') return trendPlot(points.value, view.value, its);
  const outcome = individualsChart(points.value.map(({ value }) => value));
  return outcome.kind === 'chart'
    ? trendChart(points.value, outcome.chart, its)
    : trendPlot(points.value, 'date', its);
}

export function TrendPlace() {
  const text = words.value.look;
  const trend = text.trend;
  useEffect(() => {
    const read = readSearch(draft.value, units.value);
    void gather([...(found.value ?? [])], true, withOthers.value && read.ok ? read.query : null);
    return stopGathering;
  }, [withOthers.value]);
  // What was chosen stays to be seen also where no pull gives it yet.
  const choices = [...new Set([...offeredQuantities(pulls.value), quantity.value])];
  const input = plot(PICTURE_WIDTH_MM, PICTURE_HEIGHT_MM);
  const save = (form: PictureForm): void => {
    if (input === null) return;
    const draw = () => curvePlot(plot(PICTURE_WIDTH_MM, PICTURE_HEIGHT_MM) ?? input);
    void savePicture(saving, draw, form, `${quantity.value}-${view.value}`);
  };
  const notNow = input === null ? text.nothingToSave : undefined;
  const grouped =
    view.value === 'individuals' || view.value === 'date' ? null : trendGroups(points.value, view.value);
  const count = (n: number): string => fixed(n, 0, language.value);
  const progress = `${trend.gathered(count(pulls.value.length), count(wanted.value.length))}; ${trend.given(count(points.value.length))}`;
  useWorkSaid({
    isUnderWay: isGathering.value,
    part: wanted.value.length === 0 ? null : pulls.value.length / wanted.value.length,
    sentence: progress,
  });
  return (
    <div class="trend-place">
      <div class="overlay-head">
        <Button kind="compact" onPress={() => (archiveView.value = 'table')}>
          {text.back}
        </Button>
        <h2>{trend.title}</h2>
        <WordSelect
          id="trend-first"
          label={trend.quantity}
          value={quantity.value}
          choices={choices}
          names={Object.fromEntries(choices.map((symbol) => [symbol, quantityName(symbol)]))}
          onChoose={(value) => (quantity.value = value)}
        />
        <WordSelect
          id="trend-view"
          label={trend.view}
          value={view.value}
          choices={VIEWS}
          names={trend.views}
          onChoose={(value) => (view.value = value)}
        />
        <label>
          <input
            type="checkbox"
            id="trend-with-others"
            checked={withOthers.value}
            onChange={(event) => (withOthers.value = event.currentTarget.checked)}
          />{' '}
          {trend.withOthers}
        </label>
        <SaveAs id="trend" notNow={notNow} onSave={save} />
      </div>
      <FaultBlock fault={fault.value ?? saving.fault.value} />
      {setsNotJudged.value > 0 ? <p>▲ {trend.setsNotJudged(count(setsNotJudged.value))}</p> : null}
      <div class="actions">
        <span id="trend-progress">
          {progress}
          {setsJudged.value === null || isWhole.value
            ? ''
            : `; ${(isGathering.value ? trend.judging : trend.stopped)(count(setsJudged.value.done), count(setsJudged.value.all))}`}
        </span>
        {isGathering.value ? (
          <Button kind="compact" id="trend-stop" onPress={stopGathering}>
            {trend.stop}
          </Button>
        ) : wanted.value.length > 0 && !isWhole.value ? (
          <Button kind="compact" id="trend-go-on" onPress={() => void gather([], false)}>
            {setsJudged.value === null ? trend.again : trend.judgeRest}
          </Button>
        ) : null}
        {(found.value?.length ?? 0) > TREND_PULLS_MAX ? (
          <span class="pencil">{trend.tooMany(count(TREND_PULLS_MAX))}</span>
        ) : null}
        {grouped === null || grouped.leftOut === 0 ? null : (
          <span class="pencil">{trend.groupsLeftOut(count(grouped.leftOut))}</span>
        )}
      </div>
      <div class="trend-halves">
        {points.value.length === 0 && !isGathering.value ? (
          <p class="empty">{trend.none}</p>
        ) : (
          <TrendPictureView
            title={picture().title}
            quantityName={quantityName(quantity.value)}
            points={points.value}
            plot={plot}
            changes={[
              points.value,
              rules.value,
              view.value,
              units.value,
              language.value,
              decimalSign(language.value),
            ]}
          />
        )}
        <TrendFigures
          points={points.value}
          rules={rules.value}
          isGathering={isGathering.value}
          groups={grouped?.groups ?? null}
        />
      </div>
    </div>
  );
}
