/** Options of an evaluation: checked as they come in, laid over one another, said in sentences. */
import { describe, expect, it } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import { selfContainedPackFile } from '../../../core/acceptance/read-rule-pack.ts';
import { evaluationOptions } from '../../../core/contract/evaluation-options.ts';
import { idleCorrection } from '../../../core/evaluation/idle-corrections.ts';
import type { ImportPlan } from '../../../core/exchange/import/import-plan.ts';
import { mergedOptions } from '../../../core/evaluation/merged-options.ts';
import { STATED_KEYS, statedOptions } from '../../../core/evaluation/stated-options.ts';
import type { EvaluationOptions } from '../../../core/results/evaluation.ts';
import { shapeFaults } from '../../../core/shape-faults.ts';
import { PROFILE } from '../archive/made-archive.ts';

const TABLE = [
  { shown: 0, actual: 0 },
  { shown: 1, actual: 1.1 },
];

const [PACK] = builtInPacks();
if (PACK === undefined) throw new Error('the program has no rules');

const PLAN: ImportPlan = {
  ...{ schema: 'gaugemark.import-plan/1', encoding: 'utf-8', delimiter: ';', decimalSign: ',' },
  ...{ firstRowLine: 3, cells: 2 },
  columns: [
    { cell: 0, name: 'F', quantity: 'force', unit: 'kN', written: 'decimal' },
    { cell: 1, name: 'd', quantity: 'extension', unit: 'mm', written: 'decimal' },
  ],
};

/** Every option there is. */
const ALL: EvaluationOptions = {
  lineFormat: PROFILE,
  importPlan: PLAN,
  judgedBy: { pack: selfContainedPackFile(PACK) },
  offsetsPercent: [0.1, 1],
  extensionsUnderLoadPercent: [0.5],
  slopeWindow: { lowerMpa: 50, upperMpa: 150 },
  fractureIndex: 12,
  strainFrom: 'travel',
  corrections: {
    toe: false,
    forceZeroN: -12,
    extensionZeroMm: 0.02,
    travelZeroMm: 1,
    forceTable: TABLE,
    extensionTable: TABLE,
    frameCompliance: [
      { forceN: 0, travelMm: 0 },
      { forceN: 1, travelMm: 1 },
    ],
  },
  section: 'least',
  sectionForm: 'simplified',
  rounding: 'e8-1',
  finalSection: 'plain',
  requiredElongationPercent: 18,
  convertElongation: { gaugeLengthMm: 200, materialKind: 'carbon' },
  measuring: {
    readoutClass: '0.5',
    readoutUncertaintyPercent: 0.4,
    readoutResolutionN: 10,
    extensometerClass: '1',
  },
  hardeningRangePercent: { from: 4, to: 15 },
};

describe('options that come in', () => {
  it('are taken whole', () => {
    expect(evaluationOptions.parse(ALL)).toEqual(ALL);
  });

  it.each<readonly [string, object, RegExp]>([
    ['an unknown one', { offset: 0.2 }, /^offset: there is no such field/],
    ['a falling window', { slopeWindow: { lowerMpa: 9, upperMpa: 3 } }, /must lie above the lower/],
    ['one offset twice', { offsetsPercent: [0.2, 0.2] }, /stands here twice/],
    ['a table of one point', { corrections: { forceTable: TABLE.slice(1) } }, /at least 2/],
    ['a falling table', { corrections: { forceTable: [...TABLE].reverse() } }, /must grow from point to/],
    ['a strain range backwards', { hardeningRangePercent: { from: 9, to: 4 } }, /must lie above its begin/],
    ['an infinite zero', { corrections: { forceZeroN: Infinity } }, /must be a number/],
    ['an offset of nothing', { offsetsPercent: [0] }, /more than 0/],
  ])('%s is refused in a sentence', (_name, options, sentence) => {
    const outcome = evaluationOptions.safeParse(options);
    const faults = shapeFaults(outcome.error?.issues ?? [], options, { whole: 'The options' });
    expect(faults[0]?.sentence).toMatch(sentence);
  });
});

describe('options in sentences', () => {
  it('leave none out, and tell corrections from choices', () => {
    const loop = statedOptions({ slopeFrom: 'loop' });
    const stated = [...statedOptions(ALL), ...loop];
    expect(stated.map((s) => s.key).sort()).toEqual([...STATED_KEYS].sort());
    expect(stated.filter((s) => s.correction).map((s) => s.key)).toEqual(STATED_KEYS.slice(0, 7));
    for (const { sentence } of stated) expect(sentence).toMatch(/^[A-Z0-9-].*\.$/);
    expect(stated.find((s) => s.key === 'forceZero')?.sentence).toContain('-12 N is taken off');
  });

  it('say nothing of what is done anyway', () => {
    const plain: EvaluationOptions = { corrections: { toe: true, forceZeroN: 0 }, sectionForm: 'arc' };
    expect(statedOptions(plain)).toEqual([]);
  });
});

describe('options laid over others', () => {
  it('leave the rest as it was, and take the place of a slope asked for before', () => {
    expect(mergedOptions(ALL, { corrections: { forceZeroN: 5 }, slopeFrom: 'loop' })).toEqual({
      ...Object.fromEntries(Object.entries(ALL).filter(([name]) => name !== 'slopeWindow')),
      slopeFrom: 'loop',
      corrections: { ...ALL.corrections, forceZeroN: 5 },
    });
    expect(mergedOptions({}, {})).toEqual({});
  });
});

it('a correction that nothing is left to be corrected by is named', () => {
  expect(idleCorrection({ corrections: { travelZeroMm: 1 } })).toMatch(
    /take strain from the crosshead travel/,
  );
  expect(idleCorrection({ strainFrom: 'travel', corrections: { extensionTable: TABLE } })).toMatch(
    /extensometer/,
  );
  expect(idleCorrection({ corrections: { forceZeroN: 1, extensionZeroMm: 1 } })).toBeNull();
});
