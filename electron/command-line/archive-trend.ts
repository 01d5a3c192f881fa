/** `gaugemark archive trend WORD…`: one result of all that a search finds, over date or group, with limits and tolerance bound. */
import { curvePlot } from '../../core/drawing/curve-plot.ts';
import type { Drawing } from '../../core/drawing/drawing.ts';
import { ORIGIN_MARKS } from '../../core/pull/readings-origin.ts';
import { numberText } from '../../core/quantity/number-text.ts';
import { convert } from '../../core/quantity/units.ts';
import { individualsChart } from '../../core/statistics/individuals-chart.ts';
import { summarise } from '../../core/statistics/summary.ts';
import { TOLERANCE_DISTRIBUTIONS, lowerToleranceBound } from '../../core/statistics/tolerance-bound.ts';
import type { SearchQuery } from '../../core/contract/search-requests.ts';
import { ENGLISH_NOT_JUDGED, ENGLISH_TREND_WORDS } from '../../core/trend/english-trend-words.ts';
import {
  type TrendPicture,
  type TrendPoint,
  belowMinimum,
  markedAxis,
  minimumLine,
  notJudgedBy,
  placesByOrigin,
  trendChart,
  trendGroups,
  trendPlot,
  trendPoints,
} from '../../core/trend/trend-plot.ts';
import {
  TREND_GROUPINGS,
  TREND_PULLS_MAX,
  TREND_QUANTITIES,
  type JudgedSet,
  type TrendGrouping,
  type TrendPull,
  type TrendQuantity,
  type TrendRules,
  isTrendQuantity,
  judgedSets,
  offeredQuantities,
  rulesOfAll,
  setsOf,
  trendPulls,
  trendRules,
  trendUnit,
} from '../../core/trend/trend-pull.ts';
import { UNIT_SYSTEMS } from '../../core/quantity/display-unit.ts';
import { numberOption, oneOf } from './arguments.ts';
import { foundPulls } from './found-pulls.ts';
import { PICTURE_FILE_OPTIONS, pictureFile, writePicture } from './picture-file.ts';
import { archivesFrom } from './several-archives.ts';
import { recorderAccess } from './recorder-access.ts';
import { SEARCH_FLAGS, asksForVerdicts } from './search-flags.ts';
import { searchedFor } from './searched-for.ts';
import { EXIT_DONE, type ExitCode, InputError, type VerbIo } from './verb.ts';

export const ARCHIVE_TREND_USAGE =
  'gaugemark archive trend [WORD… | --search TEXT] --archive FILE [--with FILE …] [filters] [--of RESULT] [--by WORD] [--distribution WORD] [--coverage P] [--confidence P] [--svg FILE|--pdf FILE [--paper A4|Letter]] [--units si|us] [--json]';

export const ARCHIVE_TREND_HELP = `  trend    one result of every pull that a search finds (words and filters as for search): mean, three-sigma limits from
           moving ranges in the order of pulling, what the rules of their sets ask for at least, which pulls their own
           verdict found below it or does not compare, and a lower tolerance bound. --svg or --pdf writes the
           picture, over --by or as a chart of individual values. --with FILE adds what is found in another archive (of
           another year for example), as often as there are files
  --of RESULT               ${TREND_QUANTITIES.join(', ')} (default Rm), or any other proof strength that the
                            evaluations give, by its symbol: Rp1, Rt0.7
  --by WORD                 ${TREND_GROUPINGS.join(', ')}; without it one after the other
  --distribution WORD       ${TOLERANCE_DISTRIBUTIONS.join(', ')} (default lognormal), for --coverage 0.95 and --confidence 0.95`;

const OPTIONS = {
  ...SEARCH_FLAGS,
  archive: { type: 'string' },
  with: { type: 'string', multiple: true },
  of: { type: 'string' },
  by: { type: 'string' },
  distribution: { type: 'string' },
  coverage: { type: 'string' },
  confidence: { type: 'string' },
  ...PICTURE_FILE_OPTIONS,
  units: { type: 'string' },
  json: { type: 'boolean' },
} as const;

const PAPER = { widthMm: 260, heightMm: 165 };
const SHARE = 0.95;
/** Beyond it a bound says more about the factor than about the welds. */
const SHARE_MAX = 0.9999;

interface Asked {
  readonly quantity: TrendQuantity;
  readonly by: TrendGrouping | null;
  readonly unit: 'MPa' | 'psi' | '%';
}

export async function archiveTrend(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const { given, query } = searchedFor(args, OPTIONS);
  const quantity = quantityFrom(given.text('of'));
  const isUs = oneOf('units', given.text('units'), UNIT_SYSTEMS) === 'us';
  const asked: Asked = {
    quantity,
    by: oneOf('by', given.text('by'), TREND_GROUPINGS) ?? null,
    unit: trendUnit(quantity) === '%' ? '%' : isUs ? 'psi' : 'MPa',
  };
  const share = (flag: 'coverage' | 'confidence'): number =>
    numberOption(flag, given.text(flag), { above: 0, max: SHARE_MAX }) ?? SHARE;
  const question = {
    distribution: oneOf('distribution', given.text('distribution'), TOLERANCE_DISTRIBUTIONS) ?? 'lognormal',
    coverage: share('coverage'),
    confidence: share('confidence'),
  };
  const file = pictureFile(given);
  const paths = archivesFrom(given);
  const parts: GatheredPart[] = [];
  for (const path of paths) {
    const room = TREND_PULLS_MAX - parts.reduce((sum, { pulls }) => sum + pulls.length, 0);
    parts.push(await gatheredFrom(path, { query, quantity, room }, io));
  }
  const pulls = parts.flatMap((part) => part.pulls);
  const rules = rulesOfAll(parts.map((part) => part.rules));
  const points = trendPoints(pulls, quantity);
  const notJudged = notJudgedBy(points, rules);
  const values = points.map(({ value }) => value);
  const chart = individualsChart(values);
  const tolerance = lowerToleranceBound(values, question);
  if (file !== undefined) await writePicture(drawingOf(points, rules, asked), file, io.err);
  // Numbers of pulls mean something in their own archive only.
  const fileOf = new Map(parts.flatMap((part) => part.pulls.map((pull) => [pull, part.path] as const)));
  const named = (place: number): object | number | undefined => {
    const pull = points[place]?.pull;
    if (pull === undefined || paths.length === 1) return pull?.pullId;
    return { archive: fileOf.get(pull), pullId: pull.pullId };
  };
  if (given.has('json'))
    io.out(
      JSON.stringify({
        of: quantity,
        unit: trendUnit(quantity),
        pulls: points.map(({ pull, value }) => {
          const { pullId, name, startedWallMs, pulledOn, setId, readings, heat, lot, welder } = pull;
          const archive = paths.length === 1 ? {} : { archive: fileOf.get(pull) };
          const facts = { pullId, name, startedWallMs, pulledOn, setId, readings, heat, lot, welder };
          return { ...archive, ...facts, value };
        }),
        summary: values.length === 0 ? null : summarise(values),
        minima: rules.minima,
        belowMinimum: belowMinimum(points, rules).map(named),
        notJudged: notJudged
          .flatMap(({ places }) => places)
          .sort((a, b) => a - b)
          .map(named),
        whyNotJudged: notJudged.map(({ why, places }) => ({ why, pulls: places.map(named) })),
        chart,
        tolerance,
      }),
    );
  else if (points.length === 0) io.out(noneGives(quantity, pulls));
  else io.out(trendText(points, { asked, rules, notJudged, chart, tolerance }));
  return EXIT_DONE;
}

function quantityFrom(text: string | undefined): TrendQuantity {
  if (text === undefined) return 'Rm';
  const usual = TREND_QUANTITIES.find((one) => one.toLowerCase() === text.toLowerCase());
  if (usual !== undefined) return usual;
  if (isTrendQuantity(text)) return text;
  throw new InputError(
    'option-value-wrong',
    `--of "${text.slice(0, 60)}" is no result that is looked at so; give ${TREND_QUANTITIES.join(', ')}, or another proof strength like Rp1 or Rt0.7.`,
    'of',
  );
}

interface GatheredPart {
  readonly path: string;
  readonly pulls: readonly TrendPull[];
  readonly rules: TrendRules;
}

/** Each archive by itself, and no longer open than that takes. */
async function gatheredFrom(
  path: string,
  {
    query,
    quantity,
    room,
  }: { readonly query: SearchQuery; readonly quantity: TrendQuantity; readonly room: number },
  io: VerbIo,
): Promise<GatheredPart> {
  const access = await recorderAccess({ archive: path, toRecord: asksForVerdicts(query), note: io.err });
  try {
    const pullIds = await foundPulls(access, query, { most: room, are: 'looked at together' });
    const pulls: TrendPull[] = [];
    for await (const pull of trendPulls({ ask: access.ask, pullIds, isStopped: () => false }))
      pulls.push(pull);
    const sets: JudgedSet[] = [];
    for await (const set of judgedSets(access.ask, setsOf(pulls))) sets.push(set);
    return { path, pulls, rules: trendRules(sets, pulls, quantity) };
  } finally {
    await access.end();
  }
}

function noneGives(quantity: TrendQuantity, pulls: readonly TrendPull[]): string {
  const given = offeredQuantities(pulls).filter((one) => pulls.some(({ values }) => one in values));
  return `No pull here gives ${quantity}.${given.length === 0 ? '' : ` They give ${given.join(', ')}.`}`;
}

function drawingOf(points: readonly TrendPoint[], rules: TrendRules, asked: Asked): Drawing {
  if (points.length === 0)
    throw new InputError(
      'nothing-to-draw',
      `No pull here gives ${asked.quantity}; there is nothing to draw.`,
      'svg',
    );
  const picture: TrendPicture = {
    ...PAPER,
    title: asked.quantity,
    axis: markedAxis(`${asked.quantity} in ${asked.unit}`, points, (origin) => ORIGIN_MARKS[origin]),
    decimalSign: '.',
    shown: (value) => shown(value, asked),
    minimum: minimumLine(rules, {
      alone: (value) => `minimum ${valueText(value, asked)}`,
      leastOf: (value) => `least of several minima, ${valueText(value, asked)}`,
    }),
    words: ENGLISH_TREND_WORDS,
  };
  const chart = individualsChart(points.map(({ value }) => value));
  const input =
    asked.by === null && chart.kind === 'chart'
      ? trendChart(points, chart.chart, picture)
      : trendPlot(points, asked.by ?? 'date', picture);
  return curvePlot(input);
}

const DIGITS = 5;
/** Names in one line of text. */
const NAMED_MAX = 100;

const shown = (value: number, { quantity, unit }: Asked): number =>
  quantity === 'A' ? value : convert(value, 'MPa', unit);
const valueText = (value: number, asked: Asked): string =>
  `${numberText(shown(value, asked), DIGITS)} ${asked.unit}`;

function trendText(
  points: readonly TrendPoint[],
  {
    asked,
    rules,
    notJudged,
    chart,
    tolerance,
  }: {
    readonly asked: Asked;
    readonly rules: TrendRules;
    readonly notJudged: ReturnType<typeof notJudgedBy>;
    readonly chart: ReturnType<typeof individualsChart>;
    readonly tolerance: ReturnType<typeof lowerToleranceBound>;
  },
): string {
  const say = (value: number): string => valueText(value, asked);
  const summary = summarise(points.map(({ value }) => value));
  const named = (places: readonly number[]): string =>
    places.length === 0
      ? 'none'
      : [
          ...places.slice(0, NAMED_MAX).map((place) => points[place]?.pull.name ?? ''),
          ...(places.length > NAMED_MAX
            ? [`and ${String(places.length - NAMED_MAX)} more (--json lists all)`]
            : []),
        ].join(', ');
  const allOr = (places: readonly number[]): string =>
    places.length === points.length ? 'all' : named(places);
  return [
    `${asked.quantity} of ${String(summary.count)} pulls: mean ${say(summary.mean)}, least ${say(summary.min)}, largest ${say(summary.max)}${summary.standardDeviation === null ? '' : `, standard deviation ${say(summary.standardDeviation)}`}`,
    ...placesByOrigin(points).map(({ origin, places }) => `${ORIGIN_MARKS[origin]}: ${allOr(places)}`),
    ...(asked.by === null || asked.by === 'date'
      ? []
      : trendGroups(points, asked.by).groups.map(
          ({ name, mean, points: its }) =>
            `  ${name === '' ? 'not written' : name}: mean ${say(mean)} of ${String(its.length)}`,
        )),
    ...(chart.kind === 'withheld'
      ? [chart.reason]
      : [
          `three-sigma limits from moving ranges ${say(chart.chart.lowerLine)} – ${say(chart.chart.upperLine)}; outside: ${named(chart.chart.outside)}`,
          ...chart.chart.remarks,
        ]),
    ...rules.minima.map(({ value, from }) => `minimum ${say(value)} (${from})`),
    ...(rules.isShort.size === 0
      ? []
      : [`below the minimum by their own verdict: ${named(belowMinimum(points, rules))}`]),
    ...notJudged.map(({ why, places }) => `not judged: ${allOr(places)} (${ENGLISH_NOT_JUDGED[why]})`),
    ...(tolerance.kind === 'withheld'
      ? [tolerance.reason]
      : [`${say(tolerance.bound)}: ${tolerance.method}`, ...tolerance.remarks]),
  ].join('\n');
}
