import { describe, expect, it } from 'vitest';
import { findPack } from '../../../core/acceptance/packs.ts';
import { proportionDoubts } from '../../../core/acceptance/proportions.ts';
import { readRulePack } from '../../../core/acceptance/read-rule-pack.ts';
import type { RulePackFile } from '../../../core/acceptance/rule-pack.ts';
import { doubtsOfProportions } from '../../../core/sets/doubts-of-proportions.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import type { Specimen } from '../../../core/specimen/specimen.ts';
import { OWN_PACK } from './judging.ts';

function specimen(geometry: Readonly<Record<string, string>>, gaugeLength?: string): Specimen {
  const read = readSpecimen({ id: 'T-1', geometry, ...(gaugeLength === undefined ? {} : { gaugeLength }) });
  if (!read.ok) throw new Error(read.faults[0]?.sentence);
  return read.specimen;
}
function pack(id: string): RulePackFile {
  const found = findPack(id);
  if (found.kind !== 'found') throw new Error(id);
  return found.item.file;
}
const flat = (width: string, thickness: string) => specimen({ kind: 'flat', width, thickness });
const details = (id: string, one: Specimen) => proportionDoubts(pack(id), one).map(({ detail }) => detail);

describe('proportions that rules ask for', () => {
  // ASME IX-2019 p. 195, figures QW-462.1(a) and (b): nominal 3/4 in (19 mm), wider allowed.
  it.each([
    ['0.750 in', false],
    ['19.0 mm', false],
    ['38 mm', false],
    ['0.500 in', true],
    ['12.0 mm', true],
  ])('ASME IX: a plate specimen %s wide is doubted: %s', (width, doubted) => {
    expect(details('asme-ix', flat(width, '9.5 mm')).length > 0).toBe(doubted);
  });

  it('the doubt says what was measured, what is asked for, and by which clause', () => {
    expect(details('asme-ix', flat('12.0 mm', '9.5 mm'))).toEqual([
      'the width is 12.0 mm, at least 18 mm is asked for (QW-462.1(a) and (b), seen in a published page)',
    ]);
  });

  // From memory: AWS D1.1 Fig. 6.10 (2020), 1-1/2 in to 1 in thick, 1 in above.
  it('AWS D1.1 asks for another width in thick plate, and says that it is from memory', () => {
    expect(details('aws-d1.1', flat('1.000 in', '1.25 in'))).toEqual([]);
    expect(details('aws-d1.1', flat('1.000 in', '0.75 in'))).toEqual([
      expect.stringMatching(/at least 1\.425 in .*from memory/),
    ]);
  });

  // API 1104:2005 5.6.2: about 1 in (25 mm).
  it('API 1104: about an inch, neither half of it nor double', () => {
    for (const [width, count] of [
      ['1 in', 0],
      ['0.5 in', 1],
      ['2 in', 1],
    ] as const)
      expect(details('api-1104-20', flat(width, '0.25 in')), width).toHaveLength(count);
  });

  // From memory: ISO 4136 Table 2.
  it('ISO 4136 asks for a width by the outside diameter of the pipe', () => {
    const strip = (width: string, outerDiameter: string) =>
      specimen({ kind: 'pipe-strip', width, wall: '8 mm', outerDiameter });
    expect(details('iso-15614-1', strip('12 mm', '114.3 mm'))).toEqual([]);
    expect(details('iso-15614-1', strip('12 mm', '219.1 mm'))).toHaveLength(1);
  });

  // ASTM E8/E8M Fig. 8: 2.000 in on 0.500 in (4D), 62.5 mm on 12.5 mm (5D of the metric half).
  it('all-weld-metal: four diameters in the US customary packs, four or five in the metric ones', () => {
    const round = (diameter: string, gaugeLength: string) =>
      specimen({ kind: 'round', diameter }, gaugeLength);
    expect(details('aws-a5.1', round('0.500 in', '2.000 in'))).toEqual([]);
    expect(details('aws-a5.1', round('0.500 in', '2.500 in'))).toEqual([
      expect.stringMatching(/^the gauge length is 2\.500 in, 5 d; 4 d is asked for, within 5 %/),
    ]);
    expect(details('aws-a5.1m', round('12.5 mm', '62.5 mm'))).toEqual([]);
    expect(details('aws-a5.1m', round('12.5 mm', '50 mm'))).toEqual([]);
    expect(details('aws-a5.1m', round('12.5 mm', '80 mm'))).toHaveLength(1);
  });

  // From memory: ASME IX, figure QW-462.1(d): 0.505 ± 0.010, 0.353 ± 0.007, 0.252 ± 0.005, 0.188 ± 0.003 in.
  it.each([
    ['0.505 in', false],
    ['0.495 in', false],
    ['0.515 in', false],
    ['12.83 mm', false],
    ['0.353 in', false],
    ['0.360 in', false],
    ['0.252 in', false],
    ['0.185 in', false],
    ['0.4949 in', true],
    ['0.5151 in', true],
    ['0.400 in', true],
    ['10.00 mm', true],
    ['0.1915 in', true],
  ])('ASME IX: a turned specimen of %s is doubted: %s', (diameter, doubted) => {
    expect(details('asme-ix', specimen({ kind: 'round', diameter })).length > 0).toBe(doubted);
  });

  it('the doubt of a turned specimen names the diameters that are asked for, and that they are from memory', () => {
    expect(details('asme-ix', specimen({ kind: 'round', diameter: '10.00 mm' }))).toEqual([
      'the diameter is 10.00 mm; 0.505 in ± 0.010 in or 0.353 in ± 0.007 in or 0.252 in ± 0.005 in or 0.188 in ± 0.003 in is asked for (QW-462.1(d), from memory, not checked against the standard)',
    ]);
  });

  // ASME IX-2010 QW-151.4: 3 in (75 mm) or less. API 1104:2005 Table 2, note: 1.315 in (33.4 mm) or less.
  it.each([
    ['asme-ix', '3.000 in', false],
    ['asme-ix', '3.001 in', true],
    ['api-1104-20', '1.315 in', false],
    ['api-1104-21', '33.4 mm', false],
    ['api-1104-20', '2.375 in', true],
  ])('%s: the full section of a pipe of %s is doubted: %s', (id, outerDiameter, doubted) => {
    const pipe = specimen({ kind: 'tube', outerDiameter, wall: '0.2 in' });
    expect(details(id, pipe).length > 0).toBe(doubted);
  });

  it('nothing is told where no gauge length was marked, or no rule asks', () => {
    expect(details('aws-a5.1', specimen({ kind: 'round', diameter: '0.5 in' }))).toEqual([]);
    expect(details('shop-practice', flat('3 mm', '3 mm'))).toEqual([]);
  });

  it('a specimen that is none of the set’s type, or is cut lengthwise, is left alone', () => {
    const narrow = flat('12 mm', '9.5 mm');
    const form = {
      name: 'S',
      purpose: 'production-coupon',
      rulePackId: 'asme-ix',
      baseMetals: [],
      documents: [],
    } as const;
    const doubts = (
      specimenType: 'transverse-flat' | 'transverse-turned' | 'longitudinal',
      one: Specimen = narrow,
    ) =>
      doubtsOfProportions(
        { form: { ...form, baseMetals: [], documents: [], specimenType }, pack: pack('asme-ix') },
        one,
      );
    expect(doubts('transverse-flat').map(({ code }) => code)).toEqual(['wrong-proportion']);
    expect(doubts('transverse-turned')).toEqual([]);
    expect(doubts('longitudinal')).toEqual([]);
    const turned = specimen({ kind: 'round', diameter: '10.00 mm' });
    expect(doubts('transverse-turned', turned).map(({ code }) => code)).toEqual(['wrong-proportion']);
    expect(doubts('transverse-flat', turned)).toEqual([]);
  });
});

describe('proportions of a pack of one’s own', () => {
  const own = (proportion: unknown) =>
    readRulePack({ ...OWN_PACK, specimens: { proportions: [proportion] } });

  it('a proportional gauge length, 5.65 √S0 (ISO 6892-1), rounded to 5 mm as usual', () => {
    const read = own({
      clause: '4.2',
      says: 'Proportional.',
      shape: 'flat',
      gaugeLength: { of: 'root-of-section', times: ['5.65'], within: '10 %' },
    });
    if (!read.ok) throw new Error(read.faults[0]?.sentence);
    const marked = (gaugeLength: string) =>
      proportionDoubts(
        read.pack.file,
        specimen({ kind: 'flat', width: '20 mm', thickness: '5 mm' }, gaugeLength),
      ).length;
    // √100 mm² × 5.65 = 56.5 mm, marked as 55 mm.
    expect([marked('55 mm'), marked('50 mm'), marked('80 mm')]).toEqual([0, 1, 1]);
  });

  it.each([
    [{ clause: 'nowhere', says: 'x', shape: 'flat', widthAtLeast: '1 in' }, /clause "nowhere" is unknown/],
    [{ clause: '4.2', says: 'x', shape: 'flat', widthAtLeast: '25' }, /no unit/],
    [{ clause: '4.2', says: 'x', shape: 'flat', widthAtLeast: '-25 mm' }, /widthAtLeast/],
    [
      { clause: '4.2', says: 'x', shape: 'flat' },
      /give "widthAtLeast", "widthAtMost", "diameters", .*"gaugeLength"/,
    ],
    [{ clause: '4.2', says: 'x', shape: 'round', diameters: [] }, /diameters/],
    [
      { clause: '4.2', says: 'x', shape: 'round', diameters: [{ nominal: '10', tolerance: '1 mm' }] },
      /no unit/,
    ],
    [
      {
        clause: '4.2',
        says: 'x',
        shape: 'flat',
        gaugeLength: { of: 'diameter', times: ['five'], within: '5 %' },
      },
      /5\.65/,
    ],
  ])('refuses %o', (proportion, sentence) => {
    const read = own(proportion);
    expect(read.ok ? '' : read.faults.map((fault) => fault.sentence).join(' ')).toMatch(sentence);
  });
});
