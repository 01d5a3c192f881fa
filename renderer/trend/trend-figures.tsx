/** The figures of a trend beside its picture: summary, limits, what lies outside, tolerance bound by a named method. */
import { individualsChart } from '../../core/statistics/individuals-chart.ts';
import { summarise } from '../../core/statistics/summary.ts';
import { TOLERANCE_DISTRIBUTIONS, lowerToleranceBound } from '../../core/statistics/tolerance-bound.ts';
import {
  type TrendGroup,
  type TrendPoint,
  belowMinimum,
  notJudgedBy,
  placesByOrigin,
} from '../../core/trend/trend-plot.ts';
import type { TrendRules } from '../../core/trend/trend-pull.ts';
import { PullByName } from '../archive/pull-by-name.tsx';
import { ReadingsMark } from '../design/readings-mark.tsx';
import { fixed } from '../numbers/format.ts';
import { SelectField } from '../stations/set/select-field.tsx';
import { WordSelect } from '../stations/set/word-select.tsx';
import { language } from '../store/view-settings.ts';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';
import { confidence, coverage, distribution, trendSpan, trendText } from './trend-choice.ts';

/** Usual pairs of coverage and confidence for lower bounds of strengths. Common practice, no source. */
const SHARES = ['0.9', '0.95', '0.99'] as const;

export interface TrendFiguresProps {
  /** In the order of pulling. */
  readonly points: readonly TrendPoint[];
  readonly rules: TrendRules;
  /** Until all are evaluated none is judged yet. */
  readonly isGathering: boolean;
  /** Null where the picture is not by group. */
  readonly groups: readonly TrendGroup[] | null;
}

export function TrendFigures({ points, rules, isGathering, groups }: TrendFiguresProps) {
  const text = words.value.look.trend;
  if (points.length === 0) return null;
  const values = points.map(({ value }) => value);
  const summary = summarise(values);
  const outcome = individualsChart(values);
  const chart = outcome.kind === 'chart' ? outcome.chart : null;
  const percent = (ratio: number | null): string =>
    ratio === null ? words.value.common.none : `${fixed(ratio * 100, 1, language.value)} %`;
  return (
    <div class="trend-figures" tabIndex={0} role="region" aria-label={text.title}>
      <dl class="facts">
        <dt>{text.summary.count}</dt>
        <dd>{fixed(summary.count, 0, language.value)}</dd>
        {placesByOrigin(points).map(({ origin, places }) => (
          <>
            <dt>
              <ReadingsMark readings={origin} />
            </dt>
            <dd>
              <AllOrNamed points={points} places={places} />
            </dd>
          </>
        ))}
        <dt>{text.summary.mean}</dt>
        <dd>{trendText(summary.mean)}</dd>
        <dt>{text.summary.deviation}</dt>
        <dd>
          {summary.standardDeviation === null
            ? words.value.common.none
            : `${trendText(summary.standardDeviation, 1)} (${percent(summary.coefficientOfVariation)})`}
        </dd>
        <dt>
          {text.summary.least} – {text.summary.most}
        </dt>
        <dd>{trendSpan(summary.min, summary.max)}</dd>
        {chart === null ? null : (
          <>
            <dt>{text.summary.sigma}</dt>
            <dd>{trendText(chart.sigma, 1)}</dd>
            <dt>{text.summary.limits}</dt>
            <dd>{trendSpan(chart.lowerLine, chart.upperLine)}</dd>
            <dt>{text.summary.outside}</dt>
            <dd>
              <Named points={points} places={chart.outside} />
            </dd>
          </>
        )}
        {rules.minima.map(({ value, from }) => (
          <>
            <dt>{text.summary.minimum}</dt>
            <dd>
              {trendText(value)} <span class="pencil small">{told(from)}</span>
            </dd>
          </>
        ))}
        {isGathering ? null : (
          <>
            {rules.isShort.size === 0 ? null : (
              <>
                <dt>{text.summary.below}</dt>
                <dd>
                  <Named points={points} places={belowMinimum(points, rules)} />
                </dd>
              </>
            )}
            <dt>{text.summary.notJudged}</dt>
            <dd>
              <NotJudged points={points} rules={rules} />
            </dd>
          </>
        )}
      </dl>
      {chart === null || chart.remarks.length === 0 ? null : (
        <p class="pencil small">{text.few(String(values.length))}</p>
      )}
      {groups === null ? null : (
        <dl class="facts">
          {groups.map(({ name, points: its, mean }) => (
            <>
              <dt>{name === '' ? text.words.notWritten : name}</dt>
              <dd>
                {text.summary.mean} {trendText(mean)}, n = {its.length}
              </dd>
            </>
          ))}
        </dl>
      )}
      <Tolerance values={values} isGathering={isGathering} />
    </div>
  );
}

/** Of each reason the pulls, by name, or that it is all of them. */
function NotJudged({
  points,
  rules,
}: {
  readonly points: readonly TrendPoint[];
  readonly rules: TrendRules;
}) {
  const text = words.value.look.trend;
  const parts = notJudgedBy(points, rules);
  if (parts.length === 0) return <>{text.nobody}</>;
  return (
    <>
      {parts.map(({ why, places }) => (
        <div key={why}>
          <span class="pencil small">{text.whyNotJudged[why]}:</span>{' '}
          <AllOrNamed points={points} places={places} />
        </div>
      ))}
    </>
  );
}

/** Names beside a picture; more are found by the search. */
const NAMED_MAX = 30;

interface NamedProps {
  readonly points: readonly TrendPoint[];
  readonly places: readonly number[];
}

/** That it is all of them, or which. */
function AllOrNamed(props: NamedProps) {
  return props.places.length === props.points.length ? (
    <>{words.value.look.trend.everybody}</>
  ) : (
    <Named {...props} />
  );
}

/** Pulls by their names; pressed, one opens in the archive. */
function Named({ points, places }: NamedProps) {
  if (places.length === 0) return <>{words.value.look.trend.nobody}</>;
  return (
    <ul class="trend-named">
      {places.slice(0, NAMED_MAX).map((place) => {
        const pull = points[place]?.pull;
        return pull === undefined ? null : (
          <li key={pull.pullId}>
            <PullByName pullId={pull.pullId} name={pull.name} />
          </li>
        );
      })}
      {places.length <= NAMED_MAX ? null : (
        <li>{words.value.look.trend.furtherNames(fixed(places.length - NAMED_MAX, 0, language.value))}</li>
      )}
    </ul>
  );
}

function Tolerance({
  values,
  isGathering,
}: {
  readonly values: readonly number[];
  readonly isGathering: boolean;
}) {
  const text = words.value.look.trend;
  const answer = lowerToleranceBound(values, {
    distribution: distribution.value,
    coverage: Number(coverage.value),
    confidence: Number(confidence.value),
  });
  const share = (value: string): string => `${fixed(Number(value) * 100, 0, language.value)} %`;
  const shares = SHARES.map((value) => ({ value, label: share(value) }));
  return (
    <fieldset class="trend-tolerance">
      <legend class="field-label">{text.tolerance}</legend>
      <WordSelect
        label={text.distribution}
        value={distribution.value}
        choices={TOLERANCE_DISTRIBUTIONS}
        names={text.distributions}
        onChoose={(value) => (distribution.value = value)}
      />
      <SelectField
        label={text.coverage}
        value={coverage.value}
        options={shares}
        onChoose={(value) => (coverage.value = value)}
      />
      <SelectField
        label={text.confidence}
        value={confidence.value}
        options={shares}
        onChoose={(value) => (confidence.value = value)}
      />
      <p role={isGathering ? undefined : 'status'} id="tolerance-bound">
        {answer.kind === 'withheld' ? (
          answer.code === 'too-few' ? (
            text.tooFew
          ) : (
            text.notPositive
          )
        ) : (
          <>
            <strong>{trendText(answer.bound)}</strong>{' '}
            <span class="pencil small">
              {text.method(
                text.distributions[distribution.value],
                share(coverage.value),
                share(confidence.value),
                String(values.length),
                fixed(answer.factor, 3, language.value),
              )}
            </span>
          </>
        )}
      </p>
      {answer.kind === 'withheld' || answer.remarks.length === 0 ? null : (
        <ul class="pencil small" id="tolerance-remarks">
          {answer.remarks.map((remark) => (
            <li key={remark}>{told(remark)}</li>
          ))}
        </ul>
      )}
    </fieldset>
  );
}
