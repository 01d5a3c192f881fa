/**
 * Every pack × where it broke × strength just below, at and just above the limit × unit system. The expected answers
 * come from the small tables below, written from the published paragraphs named beside them, not from the packs.
 */
import { describe, expect, it } from 'vitest';
import { type JudgeRequest, judgeAsked } from '../../core/acceptance/judge-request.ts';
import { builtInPacks, findPack } from '../../core/acceptance/packs.ts';
import type { Outcome, Verdict } from '../../core/acceptance/verdict.ts';

type Answer = 'accept' | 'reject' | 'undecided';
/** Answers for a strength below 95 %, from 95 % to below 100 %, and from 100 % of the minimum on. */
type Answers = readonly [below95: Answer, from95: Answer, from100: Answer];

const FULL: Answers = ['reject', 'reject', 'accept'];
const ALLOWANCE: Answers = ['reject', 'accept', 'accept'];
const NEVER: Answers = ['reject', 'reject', 'reject'];
const ALWAYS: Answers = ['accept', 'accept', 'accept'];
const OPEN: Answers = ['undecided', 'undecided', 'undecided'];
const OPEN_FROM_FULL: Answers = ['reject', 'reject', 'undecided'];
const OPEN_BETWEEN: Answers = ['reject', 'undecided', 'accept'];

interface Place {
  readonly broke: string;
  readonly fracture?: 'sound' | 'unsound';
  readonly answers: Answers;
}

const EVERYWHERE = (answers: Answers): Place[] =>
  ['weld-metal', 'fusion-line', 'heat-affected-zone', 'base-metal', 'outside-gauge'].map((broke) => ({
    broke,
    answers,
  }));
/** Validity first: common practice, no source. */
const GRIPS: Place = { broke: 'grips', answers: OPEN };

/** ASME IX QW-153.1 (a) to (d). The heat-affected zone counted as base metal is our reading. */
const ASME: readonly Place[] = [
  { broke: 'weld-metal', answers: FULL },
  { broke: 'weld-metal', fracture: 'unsound', answers: FULL },
  { broke: 'fusion-line', answers: FULL },
  { broke: 'heat-affected-zone', answers: ALLOWANCE },
  { broke: 'base-metal', answers: ALLOWANCE },
  { broke: 'outside-gauge', answers: OPEN_BETWEEN },
  GRIPS,
];
/** API 1104 20th edition 5.6.2. */
const API_WELD: readonly Place[] = ['weld-metal', 'fusion-line'].flatMap((broke) => [
  { broke, fracture: 'sound', answers: FULL } as const,
  { broke, fracture: 'unsound', answers: NEVER } as const,
  { broke, answers: OPEN_FROM_FULL },
]);
const API_20: readonly Place[] = [
  ...API_WELD,
  { broke: 'heat-affected-zone', answers: FULL },
  { broke: 'base-metal', answers: FULL },
  { broke: 'outside-gauge', answers: FULL },
  GRIPS,
];
/** API 1104 21st edition 5.6.2.3, from memory. */
const API_21: readonly Place[] = [
  ...API_WELD,
  { broke: 'heat-affected-zone', answers: ALLOWANCE },
  { broke: 'base-metal', answers: ALLOWANCE },
  { broke: 'outside-gauge', answers: OPEN_BETWEEN },
  GRIPS,
];
/** Common practice, no source. */
const SHOP: readonly Place[] = [
  { broke: 'weld-metal', answers: NEVER },
  { broke: 'fusion-line', answers: NEVER },
  { broke: 'heat-affected-zone', answers: FULL },
  { broke: 'base-metal', answers: FULL },
  { broke: 'outside-gauge', answers: FULL },
  GRIPS,
];
const SHOP_LOCATION: readonly Place[] = [
  { broke: 'weld-metal', answers: NEVER },
  { broke: 'fusion-line', answers: NEVER },
  { broke: 'heat-affected-zone', answers: ALWAYS },
  { broke: 'base-metal', answers: ALWAYS },
  { broke: 'outside-gauge', answers: OPEN },
  GRIPS,
];

/** Name as asked for, minimum in psi and in MPa as the specification prints them (two separate systems). */
type Metal = readonly [asked: string, psi: number | null, mpa: number | null];
/** ASTM A36, A572, A516, A106, A240 as in civil engineering and material tables. */
const STEELS: readonly Metal[] = [
  ['A36', 58_000, 400],
  ['A572 Gr 50', 65_000, 450],
  ['SA-516-70', 70_000, 485],
  ['A516 Grade 60', 60_000, 415],
  ['sa-106-b', 60_000, 415],
];
/** API 5L / ISO 3183, 45th edition family. */
const PIPE: readonly Metal[] = [
  ['X42', 60_200, 415],
  ['X52', 66_700, 460],
  ['API 5L X65', 77_600, 535],
  ['L485', 82_700, 570],
];
/** AWS D1.2 Table 3.2 and ASME IX, welded minimum of 6061-T6. */
const ALUMINIUM: readonly Metal[] = [['6061-T6', 24_000, 165]];
const STAINLESS: readonly Metal[] = [
  ['304L', 70_000, 485],
  ['SA-240 Type 316', 75_000, 515],
];
const IN_MPA_ONLY = (metals: readonly Metal[]): Metal[] => metals.map(([asked, , mpa]) => [asked, null, mpa]);

const TRANSVERSE: readonly (readonly [pack: string, places: readonly Place[], metals: readonly Metal[]])[] = [
  ['asme-ix', ASME, [...STEELS, ...STAINLESS, ...ALUMINIUM]],
  // AWS D1.1 6.10.3.5 (2020): place of the break is no criterion; that there is no allowance is from memory.
  ['aws-d1.1', [...EVERYWHERE(FULL), GRIPS], STEELS],
  ['aws-d1.2', [...EVERYWHERE(FULL), GRIPS], ALUMINIUM],
  ['api-1104-20', API_20, PIPE],
  ['api-1104-21', API_21, PIPE],
  // ISO 15614-1:2017 7.4.1, from memory: figures in MPa only.
  ['iso-15614-1', [...EVERYWHERE(FULL), GRIPS], IN_MPA_ONLY([...STEELS, ...PIPE, ['S355J2', null, 470]])],
  // IMO IGC Code 6.3.4.1.
  ['imo-igc', [...EVERYWHERE(FULL), GRIPS], IN_MPA_ONLY(STEELS)],
  ['shop-practice', SHOP, [...STEELS, ...PIPE]],
  ['shop-practice-location', SHOP_LOCATION, STEELS],
];

describe.each(TRANSVERSE)('%s', (packId, places, metals) => {
  const cases = metals.flatMap(([asked, psi, mpa]) =>
    places.flatMap((place) => [
      ...(psi === null ? [] : [{ asked, place, minimum: psi, unit: 'psi' }]),
      ...(mpa === null ? [] : [{ asked, place, minimum: mpa, unit: 'MPa' }]),
    ]),
  );
  it.each(cases.map((c) => [c.asked, `${c.place.broke} ${c.place.fracture ?? ''}`, c.unit, c] as const))(
    '%s, %s, %s',
    (_asked, _where, _unit, { asked, place, minimum, unit }) => {
      const [below95, from95, from100] = place.answers;
      // In thousandths of the unit, so that every strength below is an exact decimal.
      const full = BigInt(minimum) * 1000n;
      const reduced = (full * 95n) / 100n;
      const expected: readonly (readonly [bigint, Answer])[] = [
        [reduced - 1n, below95],
        [reduced, from95],
        [reduced + 1n, from95],
        [full - 1n, from95],
        [full, from100],
        [full + 1n, from100],
      ];
      for (const [thousandths, answer] of expected) {
        const request = {
          baseMetals: [asked],
          broke: place.broke,
          ...(place.fracture && { fracture: place.fracture }),
        };
        const inUnit = judge(packId, { ...request, strength: `${decimal(thousandths)} ${unit}` });
        expect(`${decimal(thousandths)} ${unit}: ${inUnit.outcome}`).toBe(
          `${decimal(thousandths)} ${unit}: ${answer}`,
        );
        const byMinimum = judge(packId, {
          ...request,
          baseMetals: [],
          minima: [`${String(minimum)} ${unit}`],
          strength: `${decimal(thousandths)} ${unit}`,
        });
        expect(byMinimum.outcome).toBe(answer);
        if (unit === 'psi') {
          const inKsi = judge(packId, { ...request, strength: `${decimal(thousandths, 6)} ksi` });
          expect(inKsi.outcome).toBe(answer);
        }
      }
    },
  );
});

describe('the limit that the verdict names', () => {
  it.each([
    ['asme-ix', 'SA-516-70', 'base-metal', '70 000 psi', 66_500, 'psi'],
    ['asme-ix', 'SA-516-70', 'weld-metal', '70 000 psi', 70_000, 'psi'],
    ['asme-ix', 'SA-516-70', 'base-metal', '500 MPa', 460.75, 'MPa'],
    ['asme-ix', 'SA-516-70', 'fusion-line', '500 MPa', 485, 'MPa'],
    ['api-1104-21', 'X52', 'base-metal', '65 000 psi', 63_365, 'psi'],
    ['api-1104-20', 'X52', 'base-metal', '65 000 psi', 66_700, 'psi'],
    ['aws-d1.1', 'A36', 'base-metal', '58 ksi', 58, 'ksi'],
    ['iso-15614-1', 'A36', 'base-metal', '58 ksi', 400, 'MPa'],
  ])('%s, %s, %s: %s is compared with %d %s', (packId, metal, broke, strength, value, unit) => {
    const { limit } = judge(packId, { baseMetals: [metal], broke, strength });
    expect(limit).toMatchObject({ value, unit });
  });
});

/**
 * All-weld-metal minima (makers' guides and data books to the AWS specifications; A5.5, A5.28 and A5.4 partly from
 * memory): tensile, yield, elongation; a pair is minimum and maximum. US in ksi, SI in MPa as printed.
 */
type Range = readonly [min: number, max: number | null];
interface FillerRow {
  readonly spec: string;
  readonly filler: string;
  readonly us: readonly [tensile: Range, yielding: Range | null];
  readonly si: readonly [tensile: Range, yielding: Range | null];
  readonly elongation: number | null;
}
const min = (value: number): Range => [value, null];
const FILLERS: readonly FillerRow[] = [
  { spec: 'aws-a5.1', filler: 'E6010', us: [min(60), min(48)], si: [min(430), min(330)], elongation: 22 },
  { spec: 'aws-a5.1', filler: 'E6013', us: [min(60), min(48)], si: [min(430), min(330)], elongation: 17 },
  { spec: 'aws-a5.1', filler: 'E6022', us: [min(60), null], si: [min(430), null], elongation: null },
  { spec: 'aws-a5.1', filler: 'E7018', us: [min(70), min(58)], si: [min(490), min(400)], elongation: 22 },
  { spec: 'aws-a5.1', filler: 'E7024', us: [min(70), min(58)], si: [min(490), min(400)], elongation: 17 },
  { spec: 'aws-a5.4', filler: 'E308L-16', us: [min(75), null], si: [min(520), null], elongation: 30 },
  { spec: 'aws-a5.4', filler: 'E316L', us: [min(70), null], si: [min(490), null], elongation: 30 },
  {
    spec: 'aws-a5.5',
    filler: 'E8018-C3',
    us: [min(80), [68, 80]],
    si: [min(550), [470, 550]],
    elongation: 24,
  },
  { spec: 'aws-a5.5', filler: 'E9018-B3', us: [min(90), min(77)], si: [min(620), min(530)], elongation: 17 },
  {
    spec: 'aws-a5.5',
    filler: 'E12018-M',
    us: [min(120), [108, 120]],
    si: [min(830), [745, 830]],
    elongation: 18,
  },
  { spec: 'aws-a5.18', filler: 'ER70S-6', us: [min(70), min(58)], si: [min(480), min(400)], elongation: 22 },
  {
    spec: 'aws-a5.20',
    filler: 'E71T-1C',
    us: [[70, 95], min(58)],
    si: [[490, 670], min(390)],
    elongation: 22,
  },
  {
    spec: 'aws-a5.20',
    filler: 'E70T-4',
    us: [[70, 95], min(58)],
    si: [[490, 670], min(390)],
    elongation: 22,
  },
  {
    spec: 'aws-a5.20',
    filler: 'E71T-11',
    us: [[70, 95], min(58)],
    si: [[490, 670], min(390)],
    elongation: 20,
  },
  { spec: 'aws-a5.28', filler: 'ER80S-D2', us: [min(80), min(68)], si: [min(550), min(470)], elongation: 17 },
  { spec: 'aws-a5.28', filler: 'ER70S-A1', us: [min(75), min(58)], si: [min(515), min(400)], elongation: 19 },
  {
    spec: 'aws-a5.28',
    filler: 'ER110S-1',
    us: [min(110), min(95)],
    si: [min(760), min(660)],
    elongation: 15,
  },
];

describe('all-weld-metal classes, rounded before judging (AWS A5.1/A5.1M clause 6)', () => {
  const cases = FILLERS.flatMap((row) => [
    { row, packId: row.spec, unit: 'ksi', step: 1n, tensile: row.us[0], yielding: row.us[1] },
    { row, packId: `${row.spec}m`, unit: 'MPa', step: 10n, tensile: row.si[0], yielding: row.si[1] },
  ]);
  it.each(cases.map((c) => [c.packId, c.row.filler, c] as const))('%s, %s', (packId, filler, c) => {
    const good: JudgeRequest = {
      filler,
      broke: 'weld-metal',
      strength: `${String(c.tensile[0])} ${c.unit}`,
      ...(c.yielding && { yield: `${String(c.yielding[0])} ${c.unit}` }),
      ...(c.row.elongation !== null && { elongation: `${String(c.row.elongation)} %` }),
    };
    expect(judge(packId, good).outcome, 'at every minimum').toBe('accept');
    const outcomeWith = (field: 'strength' | 'yield' | 'elongation', text: string): Outcome =>
      judge(packId, { ...good, [field]: text }).outcome;
    const ranges = [
      ['strength', c.tensile, c.step, c.unit],
      ['yield', c.yielding, c.step, c.unit],
      ['elongation', c.row.elongation === null ? null : min(c.row.elongation), 1n, '%'],
    ] as const;
    for (const [field, range, step, unit] of ranges) {
      if (range === null) continue;
      for (const [thousandths, answer] of aroundMinimum(range[0], step)) {
        expect(
          `${field} ${decimal(thousandths)}: ${outcomeWith(field, `${decimal(thousandths)} ${unit}`)}`,
        ).toBe(`${field} ${decimal(thousandths)}: ${answer}`);
      }
      if (range[1] === null) continue;
      for (const [thousandths, answer] of aroundMaximum(range[1], step)) {
        expect(
          `${field} ${decimal(thousandths)}: ${outcomeWith(field, `${decimal(thousandths)} ${unit}`)}`,
        ).toBe(`${field} ${decimal(thousandths)}: ${answer}`);
      }
    }
  });

  it.each(FILLERS)('$spec $filler in the grips is no verdict', ({ spec, filler }) => {
    expect(
      judge(spec, { filler, broke: 'grips', strength: '130 ksi', yield: '100 ksi', elongation: '30 %' })
        .outcome,
    ).toBe('undecided');
  });
});

it('covers every pack of the program', () => {
  const covered = new Set([
    ...TRANSVERSE.map(([id]) => id),
    ...FILLERS.flatMap((row) => [row.spec, `${row.spec}m`]),
  ]);
  expect(
    builtInPacks()
      .map((pack) => pack.file.id)
      .filter((id) => !covered.has(id)),
  ).toEqual([]);
});

/** The step, or one unit where the limit is no multiple of it (515 MPa): our reading, no source. */
function stepFor(limit: number, step: bigint): bigint {
  return BigInt(limit) % step === 0n ? step : 1n;
}

/** Half-even in whole steps: the tie below an even multiple rounds up to it, the tie below an odd one away from it. */
function aroundMinimum(limit: number, packStep: bigint): (readonly [bigint, Answer])[] {
  const step = stepFor(limit, packStep);
  const multiple = BigInt(limit) / step;
  const tie = multiple * step * 1000n - (step * 1000n) / 2n;
  const even = multiple % 2n === 0n;
  return [
    [tie - 1n, 'reject'],
    [tie, even ? 'accept' : 'reject'],
    [tie + 1n, 'accept'],
  ];
}

function aroundMaximum(limit: number, packStep: bigint): (readonly [bigint, Answer])[] {
  const step = stepFor(limit, packStep);
  const multiple = BigInt(limit) / step;
  const tie = multiple * step * 1000n + (step * 1000n) / 2n;
  const even = multiple % 2n === 0n;
  return [
    [tie - 1n, 'accept'],
    [tie, even ? 'accept' : 'reject'],
    [tie + 1n, 'reject'],
  ];
}

function judge(packId: string, request: JudgeRequest): Verdict {
  const found = findPack(packId);
  if (found.kind !== 'found') throw new Error(`no pack ${packId}`);
  const outcome = judgeAsked(found.item, request, []);
  if (!outcome.ok) throw new Error(outcome.faults.map((fault) => fault.sentence).join(' '));
  return outcome.verdict;
}

/** A whole number of thousandths (or of another power of ten) as a plain decimal. */
function decimal(scaled: bigint, places = 3): string {
  const digits = scaled.toString().padStart(places + 1, '0');
  return `${digits.slice(0, -places)}.${digits.slice(-places)}`;
}
