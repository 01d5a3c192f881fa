import { describe, expect, it } from 'vitest';
import type { Ask } from '../../../core/contract/index.ts';
import { curvePlot, plotLayout } from '../../../core/drawing/curve-plot.ts';
import type { Drawing } from '../../../core/drawing/drawing.ts';
import { individualsChart } from '../../../core/statistics/individuals-chart.ts';
import {
  type TrendPicture,
  dayOf,
  belowMinimum,
  markedAxis,
  minimumLine,
  notJudgedBy,
  placesByOrigin,
  trendChart,
  trendGroups,
  trendPlot,
  trendPoints,
} from '../../../core/trend/trend-plot.ts';
import { trendPlaces } from '../../../core/trend/trend-places.ts';
import {
  TREND_QUANTITIES,
  judgedSets,
  offeredQuantities,
  ruleQuantity,
  setsOf,
  trendPulls,
  trendRules,
  type JudgedSet,
  type TrendPull,
} from '../../../core/trend/trend-pull.ts';

const DAY = 86_400_000;
const pull = (pullId: number, Rm: number | undefined, more: Partial<TrendPull> = {}): TrendPull => ({
  pullId,
  name: `W-${String(pullId)}`,
  startedWallMs: Date.parse('2026-03-01T08:00:00Z') + pullId * DAY,
  pulledOn: null,
  clockMs: Date.parse('2026-03-01T08:00:00Z') + pullId * DAY,
  setId: null,
  readings: null,
  heat: '',
  lot: '',
  welder: '',
  values: Rm === undefined ? {} : { Rm },
  ...more,
});
const PICTURE: TrendPicture = {
  widthMm: 200,
  heightMm: 120,
  title: 'Rm',
  axis: 'Rm, ksi',
  decimalSign: '.',
  // 1 ksi = 6.894757 MPa (NIST SP 811, B.8).
  shown: (mpa) => mpa / 6.894757,
  minimum: { value: 480, words: 'minimum 69.6 ksi' },
  words: {
    date: 'date',
    group: { heat: 'heat', lot: 'lot', welder: 'welder' },
    notWritten: 'not written',
    order: 'order',
    mean: 'mean',
    upper: 'upper',
    lower: 'lower',
  },
};
const texts = ({ shapes }: Drawing): string[] =>
  shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []));

describe('results of many pulls', () => {
  it('tells which values no frame gave, by where they came from, and the axis of the picture says so', () => {
    const made = { readings: 'simulated' } as const;
    const points = trendPoints([pull(1, 500), pull(2, 510, made), pull(3, 520, made)], 'Rm');
    expect(placesByOrigin(points)).toEqual([{ origin: 'simulated', places: [1, 2] }]);
    const mark = (origin: string): string => origin.toUpperCase();
    expect(markedAxis('Rm, MPa', points, mark)).toBe('Rm, MPa · SIMULATED');
    expect(markedAxis('Rm, MPa', points.slice(0, 1), mark)).toBe('Rm, MPa');
  });

  it('stand in the order of pulling, those without the result left out', () => {
    const points = trendPoints([pull(3, 510), pull(1, 500), pull(2, undefined)], 'Rm');
    expect(points.map(({ pull: its }) => its.pullId)).toEqual([1, 3]);
  });

  it('stand at the day that was stated of them, and in that order', () => {
    const dated = pull(3, 510, { pulledOn: '2019-05-14', clockMs: Date.UTC(2019, 4, 14) });
    const points = trendPoints([pull(1, 500), dated], 'Rm');
    expect(points.map(({ pull: its }) => dayOf(its))).toEqual(['2019-05-14', '2026-03-02']);
  });

  it('fall short by their own verdict alone, and say where there is none', () => {
    const points = trendPoints([pull(1, 482.6), pull(2, 482.6), pull(3, 400)], 'Rm');
    const [first, second] = points.map(({ pull: its }) => its);
    if (first === undefined || second === undefined) throw new Error('they are there');
    const rules = {
      minima: [],
      isShort: new Map([
        [first, true],
        [second, false],
      ]),
      whyNot: new Map(),
    };
    expect(belowMinimum(points, rules)).toEqual([0]);
  });

  it('say of each that is held against no minimum why not', () => {
    const value = SHORT_BEFORE_ROUNDING_MPA;
    const pulls = [
      pull(1, value),
      pull(2, value, { setId: 8 }),
      ...[3, 4, 5, 6, 7, 8].map((id) => pull(id, value, { setId: 9 })),
      pull(9, undefined),
    ];
    const members = [
      { pullId: 4, checks: null },
      { pullId: 5, checks: [ELONGATION] },
      { pullId: 6, checks: [check({ measured: amount(80_000, 'psi') })] },
      { pullId: 7, checks: [check({ state: 'unknown' })] },
      { pullId: 8, checks: [check({})] },
    ];
    const rules = trendRules([{ setId: 9, members }], pulls, 'Rm');
    const points = trendPoints(pulls, 'Rm');
    const said = notJudgedBy(points, rules).map(({ why, places }) => [
      why,
      places.map((place) => points[place]?.pull.pullId),
    ]);
    expect(said).toEqual([
      ['no-set', [1]],
      ['set-waits', [2]],
      ['not-counted', [3]],
      ['no-verdict', [4]],
      ['nothing-asked', [5]],
      ['other-value', [6]],
      ['undecided', [7]],
    ]);
    // With its verdict there is nothing to say of the eighth; the ninth has no value.
    expect([rules.isShort.size, rules.whyNot.size]).toEqual([1, 7]);
  });

  it('are drawn with the least minimum, which says so where others ask for more', () => {
    const words = { alone: () => 'minimum', leastOf: () => 'least' };
    const of = (...values: number[]) =>
      minimumLine(
        {
          minima: values.map((value) => ({ value, from: '', setIds: [1] })),
          isShort: new Map(),
          whyNot: new Map(),
        },
        words,
      );
    expect(of(480, 550)).toEqual({ value: 480, words: 'least' });
    expect(of(480)).toEqual({ value: 480, words: 'minimum' });
    expect(of()).toBeNull();
  });

  it('are grouped by heat, lot or welder, the largest group first', () => {
    const points = trendPoints(
      [
        pull(1, 500, { welder: 'Silva' }),
        pull(2, 520, { welder: 'Brandt' }),
        pull(3, 530, { welder: 'Brandt' }),
      ],
      'Rm',
    );
    const { groups } = trendGroups(points, 'welder');
    expect(groups.map(({ name, mean }) => [name, mean])).toEqual([
      ['Brandt', 525],
      ['Silva', 500],
    ]);
    const drawn = texts(curvePlot(trendPlot(points, 'welder', PICTURE)));
    expect(drawn).toEqual(expect.arrayContaining(['Brandt (2)', 'Silva (1)', 'welder', 'minimum 69.6 ksi']));
    // Nobody wrote a heat: one group, said so.
    expect(texts(curvePlot(trendPlot(points, 'heat', PICTURE)))).toContain('not written (3)');
  });

  it('are drawn over whole days', () => {
    const drawn = texts(
      curvePlot(trendPlot(trendPoints([pull(1, 500), pull(20, 510)], 'Rm'), 'date', PICTURE)),
    );
    expect(drawn).toContain('2026-03-02');
    expect(drawn.filter((text) => text.startsWith('2026-')).length).toBeLessThanOrEqual(8);
  });

  it('stand at whole places however few they are', () => {
    const points = trendPoints([pull(1, 500), pull(2, 510), pull(3, 505)], 'Rm');
    const outcome = individualsChart(points.map(({ value }) => value));
    if (outcome.kind !== 'chart') throw new Error(outcome.reason);
    const drawn = texts(curvePlot(trendChart(points, outcome.chart, PICTURE)));
    expect(drawn).toEqual(expect.arrayContaining(['1', '2', '3']));
    expect(drawn).not.toContain('1.5');
  });

  it('are drawn up to twenty thousand, each that stands apart, and numbers are of all', () => {
    // In bands as close as a print, with a few far off: no source, made up.
    const points = trendPoints(
      Array.from({ length: 20_000 }, (_, i) =>
        pull(i + 1, i % 4_000 === 7 ? 300 + i / 100 : 500 + (i % 37) / 10),
      ),
      'Rm',
    );
    const outcome = individualsChart(points.map(({ value }) => value));
    if (outcome.kind !== 'chart') throw new Error(outcome.reason);
    const markersAt = (drawing: Drawing): number[] =>
      drawing.shapes.flatMap((shape) => (shape.kind === 'marker' && shape.sizeMm === 1 ? [shape.y] : []));
    for (const input of [
      trendPlot(points, 'date', PICTURE),
      trendPlot(points, 'welder', PICTURE),
      trendChart(points, outcome.chart, PICTURE),
    ]) {
      const layout = plotLayout(input);
      const drawing = curvePlot(input, layout);
      const drawn = markersAt(drawing);
      expect(drawn.length).toBeGreaterThan(1_500);
      expect(drawn.length).toBeLessThanOrEqual(5_000);
      for (const i of [7, 4_007, 8_007, 12_007, 16_007]) {
        const y = layout.area.atY(PICTURE.shown(300 + i / 100));
        expect(Math.min(...drawn.map((one) => Math.abs(one - y)))).toBeLessThan(0.5);
      }
    }
    expect(curvePlot(trendPlot(points, 'date', PICTURE)).description).toMatch(
      /Drawn with \d+ of 20000 points/,
    );
    expect(outcome.chart.outside.length).toBeGreaterThanOrEqual(5);
    expect(trendChart(points, outcome.chart, PICTURE).marks?.length).toBeLessThanOrEqual(40);
  });

  it('name the specimen that lies outside three sigma', () => {
    const points = trendPoints(
      Array.from({ length: 25 }, (_, i) => pull(i + 1, i === 24 ? 430 : 500 + (i % 2))),
      'Rm',
    );
    const outcome = individualsChart(points.map(({ value }) => value));
    if (outcome.kind !== 'chart') throw new Error(outcome.reason);
    const input = trendChart(points, outcome.chart, PICTURE);
    expect(input.marks).toEqual([{ x: 25, y: 430 / 6.894757, words: 'W-25' }]);
    expect(input.lines?.map(({ words }) => words)).toEqual(['mean', 'upper', 'lower', 'minimum 69.6 ksi']);
  });
});

type Check = NonNullable<JudgedSet['members'][number]['checks']>[number];
const amount = (value: number, unit: 'psi' | 'MPa' | '%') => ({
  value,
  unit,
  text: `${String(value)} ${unit}`,
});
/** 69 990 psi against 70 000 psi, rounded to 100 psi before it is compared: met. 1 psi = 6.894757 kPa (NIST SP 811, B.8). */
const SHORT_BEFORE_ROUNDING_MPA = 69.99 * 6.894757293168361;
const check = (over: Partial<Check>): Check => ({
  quantity: 'tensile-strength',
  comparison: 'at-least',
  state: 'met',
  measured: amount(69_990, 'psi'),
  unrounded: amount(69_990, 'psi'),
  compared: amount(70_000, 'psi'),
  rounding: null,
  limit: amount(70_000, 'psi'),
  limitFrom: 'A516-70',
  limitStatus: null,
  limitSource: null,
  margin: null,
  ...over,
});
const ELONGATION = check({
  quantity: 'elongation',
  state: 'unknown',
  measured: null,
  limit: amount(22, '%'),
  limitFrom: null,
});

/** Answers as the recorder does; what is not used is left out. */
const made =
  (asked: string[]): Ask =>
  (name, payload) => {
    asked.push(name);
    const answers: Record<string, unknown> = {
      'archive.lines': {
        items: ((payload as { pullIds?: number[] }).pullIds ?? []).map((pullId) => ({
          pullId,
          specimenName: `W-${String(pullId)}`,
          startedWallMs: pullId,
          // By the clock of the place it is the day after.
          started: '2026-03-01T00:10:00.000+02:00',
          pulledOn: pullId === 3 ? '2019-05-14' : null,
          setId: 9,
          ended: true,
          voidReason: pullId === 2 ? 'slipped' : null,
        })),
      },
      'set.get': {
        set: { form: { baseMetals: [{ heat: 'H-1' }, {}], filler: { lot: 'L-8' }, welder: 'Silva' } },
        members: [{ setMemberId: 71, pullId: 1 }],
      },
      'pull.evaluate': { results: [{ symbol: 'Rm', value: 500, unit: 'MPa' }] },
      // Of pull 5 it is noted what this program gave.
      'evaluation.known': {
        items: ((payload as { pullIds?: number[] }).pullIds ?? [])
          .filter((pullId) => pullId === 5)
          .map((pullId) => ({ pullId, values: [{ symbol: 'Rm', value: 480, unit: 'MPa' }] })),
      },
      'set.judge': {
        members: [{ setMemberId: 71, verdict: { checks: [check({}), ELONGATION] } }],
      },
    };
    return Promise.resolve(answers[name] as never);
  };

describe('gathering them', () => {
  it('leaves void pulls out, asks for a set once, and can be stopped', async () => {
    const asked: string[] = [];
    const pulls: TrendPull[] = [];
    for await (const one of trendPulls({
      ask: made(asked),
      pullIds: [1, 2, 3, 4],
      isStopped: () => pulls.length === 2,
    }))
      pulls.push(one);
    expect(pulls.map(({ pulledOn, ...its }) => [pulledOn, dayOf(its)])).toEqual([
      [null, '2026-03-01'],
      ['2019-05-14', '2019-05-14'],
    ]);
    expect(pulls.map(({ pullId, heat, lot, welder }) => [pullId, heat, lot, welder])).toEqual([
      [1, 'H-1', 'L-8', 'Silva'],
      [3, 'H-1', 'L-8', 'Silva'],
    ]);
    expect(asked.filter((name) => name === 'set.get')).toHaveLength(1);
  });

  it('evaluates only what is not known yet', async () => {
    const asked: string[] = [];
    const pulls: TrendPull[] = [];
    for await (const one of trendPulls({ ask: made(asked), pullIds: [4, 5], isStopped: () => false }))
      pulls.push(one);
    expect(pulls.map(({ pullId, values }) => [pullId, values.Rm])).toEqual([
      [4, 500],
      [5, 480],
    ]);
    expect(asked.filter((name) => name === 'pull.evaluate')).toHaveLength(1);
  });

  it('gives a cursor the place of each pull, from left to right, in every picture', () => {
    const points = trendPoints(
      [pull(3, 510, { welder: 'Silva' }), pull(1, 500, { welder: 'Ota' }), pull(2, 520, { welder: 'Silva' })],
      'Rm',
    );
    for (const by of ['date', 'welder'] as const) {
      const places = trendPlaces(points, by, trendPlot(points, by, PICTURE));
      // The largest group stands first.
      expect(places.map(({ point }) => point.pull.pullId)).toEqual(by === 'date' ? [1, 2, 3] : [2, 3, 1]);
      for (const { point, y } of places) expect(y).toBe(PICTURE.shown(point.value));
      expect(places.map(({ x }) => x)).toEqual(places.map(({ x }) => x).toSorted((a, b) => a - b));
    }
    // Where only the newest are drawn the places are theirs.
    const newest = trendPlaces(points, 'date', { traces: [{ name: '', x: [7, 8], y: [1, 2], length: 2 }] });
    expect(newest.map(({ point, x }) => [point.pull.pullId, x])).toEqual([
      [2, 7],
      [3, 8],
    ]);
  });

  it('offers every proof strength that one of them gives, behind the usual results', async () => {
    const ask: Ask = (name, payload) =>
      name === 'pull.evaluate'
        ? Promise.resolve({
            results: ['Fm', 'Rp10', 'Rt0.7', 'ReL', 'Rp1', 'A', 'E', 'Rp0.2'].map((symbol) => ({
              symbol,
              value: 1,
              unit: symbol === 'A' ? '%' : 'MPa',
            })),
          } as never)
        : made([])(name, payload);
    const pulls: TrendPull[] = [];
    for await (const one of trendPulls({ ask, pullIds: [1], isStopped: () => false })) pulls.push(one);
    expect(Object.keys(pulls[0]?.values ?? {}).sort()).toEqual(['A', 'ReL', 'Rp0.2', 'Rp1', 'Rp10', 'Rt0.7']);
    expect(offeredQuantities(pulls)).toEqual([...TREND_QUANTITIES, 'Rp1', 'Rp10', 'Rt0.7']);
    // A yield by any measure is compared as the yield strength of the rules.
    expect(['Rm', 'A', 'ReL', 'Rt0.5', 'Rp1'].map(ruleQuantity)).toEqual([
      'tensile-strength',
      'elongation',
      ...Array<string>(3).fill('yield-strength'),
    ]);
  });

  it('takes the minimum from the rules that the sets are judged by', async () => {
    const asked: string[] = [];
    const pulls = [pull(1, SHORT_BEFORE_ROUNDING_MPA, { setId: 9 }), pull(2, 500, { setId: 9 })];
    const sets: JudgedSet[] = [];
    for await (const set of judgedSets(made(asked), setsOf(pulls))) sets.push(set);
    expect(asked.filter((name) => name === 'set.judge')).toHaveLength(1);
    const { minima, isShort } = trendRules(sets, pulls, 'Rm');
    // 70 000 psi are 482.6 MPa (NIST SP 811, B.8: 1 psi = 6.894757 kPa).
    expect(minima[0]?.value).toBeCloseTo(482.63, 2);
    expect(minima[0]?.from).toBe('A516-70');
    // Below the line as it was measured, at it as the rules round; the other pull counts for no member.
    expect([...isShort]).toEqual([[pulls[0], false]]);
    const elongation = trendRules(sets, pulls, 'A');
    expect(elongation.minima).toEqual([{ value: 22, from: '22 %', setIds: [9] }]);
    expect(elongation.isShort.size).toBe(0);
  });

  it('takes a comparison for no other value, no other set and no open question', () => {
    const value = SHORT_BEFORE_ROUNDING_MPA;
    const said = (its: TrendPull, over: Partial<Check>) =>
      trendRules([{ setId: 9, members: [{ pullId: 1, checks: [check(over)] }] }], [its], 'Rm').isShort.get(
        its,
      );
    expect(said(pull(1, value, { setId: 9 }), { state: 'not-met' })).toBe(true);
    expect(said(pull(1, value, { setId: 9 }), { state: 'unknown' })).toBeUndefined();
    // The strength that the rules compared is another one.
    expect(said(pull(1, value + 1, { setId: 9 }), { state: 'not-met' })).toBeUndefined();
    expect(said(pull(1, value, { setId: 8 }), { state: 'not-met' })).toBeUndefined();
  });
});

describe('the words of the minimum', () => {
  /** How many points lie under them. */
  const covered = (drawing: Drawing): number => {
    const words = drawing.shapes.find((shape) => shape.kind === 'text' && shape.text.startsWith('minimum'));
    if (words?.kind !== 'text') throw new Error('The minimum has no words.');
    const width = words.text.length * words.sizeMm * 0.6;
    return drawing.shapes.filter(
      (shape) =>
        shape.kind === 'marker' &&
        shape.x > words.x &&
        shape.x < words.x + width &&
        shape.y > words.y - words.sizeMm &&
        shape.y < words.y,
    ).length;
  };
  /** Just above the line, where the words would stand: of one after the other, of a stretch of them, and of all but the last. */
  it.each([
    ['a single one', (day: number) => (day === 17 ? 484 : 500)],
    ['a stretch', (day: number) => (day > 5 && day < 50 ? 484 : 500)],
    ['all above it', () => 484],
    ['all about it but a stretch', (day: number) => (day > 60 && day < 95 ? 500 : 478 + (day % 9))],
  ])('cover no point where there is room: %s', (_, valueOf) => {
    const points = trendPoints(
      Array.from({ length: 100 }, (__, day) => pull(day, valueOf(day))),
      'Rm',
    );
    expect(covered(curvePlot(trendPlot(points, 'date', PICTURE)))).toBe(0);
  });

  it('stand in the frame where points are everywhere, and where the minimum is at its edge', () => {
    for (const minimum of [
      { value: 480, words: 'minimum 69.6 ksi' },
      { value: 620, words: 'minimum 89.9 ksi' },
    ]) {
      const points = trendPoints(
        Array.from({ length: 400 }, (_, day) => pull(day, 470 + ((day * 37) % 50))),
        'Rm',
      );
      const input = trendPlot(points, 'date', { ...PICTURE, minimum });
      const { frame } = plotLayout(input);
      const words = curvePlot(input).shapes.find(
        (shape) => shape.kind === 'text' && shape.text === minimum.words,
      );
      if (words?.kind !== 'text') throw new Error('The minimum has no words.');
      expect(words.y - words.sizeMm).toBeGreaterThanOrEqual(frame.y);
      expect(words.y).toBeLessThanOrEqual(frame.y + frame.height);
      expect(words.x).toBeGreaterThanOrEqual(frame.x);
    }
  });
});
