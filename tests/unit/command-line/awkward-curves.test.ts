/**
 * Curve files as shops hand them over when something went wrong, each a real file through `gaugemark evaluate`: the
 * results that stand, a reason for each that doesn't, never a value that is none.
 */
import { describe, expect, it } from 'vitest';
import { record, voce, yieldPointLaw } from '../results/synthetic-curve.ts';
import { folderOfFiles, ran } from './in-process.ts';

const file = folderOfFiles();
const specimen = file(
  'specimen.json',
  JSON.stringify({
    id: 'T-1',
    geometry: { kind: 'flat', width: '20.00 mm', thickness: '5.00 mm' },
    gaugeLength: '50 mm',
    parallelLength: '60 mm',
  }),
);

/** Time in s, force in N, extension in mm. */
type Row = readonly [number, number, number];
const HEADER = 'time_s,force_N,extension_mm';

function rows(law = voce({ end: 0.2 }), disturbance: Parameters<typeof record>[1] = {}): Row[] {
  const { length, stressMpa, strainRatio } = record(law, disturbance);
  return Array.from({ length }, (_, i) => [
    i / 10,
    100 * (stressMpa?.[i] ?? Number.NaN),
    50 * (strainRatio?.[i] ?? Number.NaN),
  ]);
}

const csv = (list: readonly (readonly (number | string)[])[], header = HEADER): string =>
  [header, ...list.map((row) => row.join(','))].join('\n');

interface Document {
  readonly results: Readonly<Record<string, { value: number; remarks?: string[] } | undefined>>;
  readonly withheld: readonly { symbol: string; reason: string }[];
  readonly remarks: readonly string[];
}

/** Evaluates the file both ways; what must hold of every answer is checked here. */
async function evaluated(content: string): Promise<Document> {
  const path = file('curve.csv', content);
  const text = await ran('evaluate', path, '--specimen', specimen);
  expect([text.code, text.err]).toEqual([0, '']);
  expect(text.out).not.toMatch(/\bNaN\b|\bInfinity\b|\bundefined\b|\bnull\b/);
  return documentOf(path);
}

async function documentOf(path: string): Promise<Document> {
  const { code, out } = await ran('evaluate', path, '--specimen', specimen, '--json');
  expect(code).toBe(0);
  const document = JSON.parse(out) as Document;
  // JSON has no NaN: one would stand there as null.
  for (const [symbol, result] of Object.entries(document.results))
    expect(Number.isFinite(result?.value), symbol).toBe(true);
  for (const { symbol, reason } of document.withheld) expect(reason, symbol).toMatch(/^[A-Z“].{15,}[.]$/s);
  for (const symbol of ['Fm', 'Rm', 'Rp0.2', 'Rt0.5', 'ReH', 'ReL', 'mE', 'At', 'Agt', 'Ag', 'n', 'K'])
    expect(
      Number(symbol in document.results) + document.withheld.filter((w) => w.symbol === symbol).length,
      `${symbol} is either given or withheld`,
    ).toBe(1);
  return document;
}

const value = ({ results }: Document, symbol: string): number | undefined => results[symbol]?.value;
const reason = ({ withheld }: Document, symbol: string): string =>
  withheld.find((w) => w.symbol === symbol)?.reason ?? '';
const LAW = voce({ end: 0.2 });
const STRENGTH = LAW.known.strengthMpa ?? 0;
const PROOF = LAW.known.proofMpa;

describe('a curve file', () => {
  it('in the order of last to first gives no strength at a strain', async () => {
    const backwards = rows(LAW, { breaks: false }).reverse();
    const of = await evaluated(csv(backwards));
    for (const symbol of ['Rm', 'Rp0.2', 'Rt0.5', 'ReH', 'A', 'Ag'])
      expect(value(of, symbol), symbol).toBeUndefined();
    expect(reason(of, 'Rt0.5')).toContain('order of the readings');
  });

  it('of three readings gives the largest force', async () => {
    const of = await evaluated(csv([[0, 0, 0], [1, 30_000, 1], [2, 10, 2]])); // oxfmt-ignore
    expect(value(of, 'Fm')).toBe(30_000);
    for (const symbol of ['Rp0.2', 'mE', 'ReH', 'A', 'Ag']) expect(reason(of, symbol), symbol).not.toBe('');
  });

  it('of zeros gives nothing, and says that nothing was pulled', async () => {
    const of = await evaluated(csv(Array.from({ length: 200 }, (_, i) => [i / 10, 0, 0])));
    for (const symbol of ['Fm', 'Rm', 'Rp0.2', 'A'])
      expect(reason(of, symbol)).toContain('nothing was pulled');
  });

  it.each([
    ['start', 0],
    ['end', -1],
  ])('with one spike at its %s gives what the others give, and names it', async (_where, at) => {
    const clean = rows(LAW);
    const spiked = clean.with(at, [clean.at(at)?.[0] ?? 0, 900_000, clean.at(at)?.[2] ?? 0]);
    const of = await evaluated(csv(spiked));
    expect(value(of, 'Rm')).toBeCloseTo(STRENGTH, 2);
    expect(value(of, 'Rp0.2')).toBeCloseTo(PROOF, 0);
    expect(of.remarks.join(' ')).toContain(`no. ${String(at < 0 ? clean.length : 1)}`);
  });

  it('without the force has no strength', async () => {
    const of = await evaluated(csv(rows(LAW).map(([t, , e]) => [t, e]), 'time_s,extension_mm')); // oxfmt-ignore
    for (const symbol of ['Fm', 'Rm', 'Rp0.2', 'A'])
      expect(reason(of, symbol)).toMatch(/no readings of force/);
  });

  it('whose force column is blank has no strength either', async () => {
    const of = await evaluated(csv(rows(LAW).map(([t, , e]) => [t, '', e])));
    expect(reason(of, 'Rm')).toMatch(/no readings of force/);
  });

  it('without an extension gives the strength and asks for an extensometer', async () => {
    const of = await evaluated(csv(rows(LAW).map(([t, f]) => [t, f]), 'time_s,force_N')); // oxfmt-ignore
    expect(value(of, 'Rm')).toBeCloseTo(STRENGTH, 2);
    for (const symbol of ['Rp0.2', 'mE', 'A', 'Agt'])
      expect(reason(of, symbol), symbol).toContain('extensometer');
  });

  it('with an extension that stays constant says that there was no extensometer', async () => {
    const of = await evaluated(csv(rows(LAW).map(([t, f]) => [t, f, 0.0132])));
    expect(value(of, 'Rm')).toBeCloseTo(STRENGTH, 2);
    for (const symbol of ['Rp0.2', 'mE', 'A', 'Agt', 'ReH'])
      expect(reason(of, symbol), symbol).toContain('stays constant');
  });

  it('with two readings of one time says so, and no value changes', async () => {
    const clean = rows(LAW);
    const twice = clean.map(([t, f, e], i) => [i === 40 ? t - 0.1 : t, f, e] as const);
    const of = await evaluated(csv(twice));
    expect(of.remarks.join(' ')).toMatch(/same time/);
    const plain = await evaluated(csv(clean));
    for (const symbol of ['Rm', 'Rp0.2', 'mE', 'A'])
      expect(value(of, symbol), symbol).toBe(value(plain, symbol));
  });

  it('that never breaks has no elongation, and no maximum while the load still rises', async () => {
    const of = await evaluated(csv(rows(voce({ end: 0.05 }), { breaks: false })));
    expect(value(of, 'Rp0.2')).toBeCloseTo(PROOF, 0);
    expect(reason(of, 'Rm')).toContain('still rises');
    for (const symbol of ['A', 'At', 'Ag', 'Agt']) expect(reason(of, symbol), symbol).not.toBe('');
  });

  it('of compression says so', async () => {
    const of = await evaluated(csv(rows(LAW).map(([t, f, e]) => [t, -f, -e])));
    for (const symbol of ['Fm', 'Rm', 'Rp0.2']) expect(reason(of, symbol)).toContain('compression');
  });

  it.each([
    ['force in kN under the name of N', 1e-3, 1, 'Rp0.2', /check the units/],
    ['force in N under the name of kN', 1e3, 1, 'Rm', /no metal bears/],
    ['extension in inches under the name of mm', 1, 1 / 25.4, 'Rp0.2', /check the units/],
  ])('with %s gives no yield', async (_name, force, extension, symbol, words) => {
    const of = await evaluated(csv(rows(LAW).map(([t, f, e]) => [t, f * force, e * extension])));
    expect(reason(of, symbol)).toMatch(words);
    for (const strain of ['Rp0.2', 'Rt0.5', 'ReH', 'mE', 'A'])
      expect(value(of, strain), strain).toBeUndefined();
  });

  it('whose readout was switched from N to lbf on the way gives nothing, and asks', async () => {
    const of = await evaluated(csv(rows(LAW).map(([t, f, e], i) => [t, i < 900 ? f : f / 4.4482216, e])));
    for (const symbol of ['Fm', 'Rm', 'Rp0.2', 'A'])
      expect(reason(of, symbol)).toContain('switched from N to lbf');
  });

  it('that begins with 20 s of slack leaves it out', async () => {
    const of = await evaluated(csv(rows(LAW, { slackReadings: 200, stressNoiseMpa: 0.2 })));
    expect(value(of, 'Rp0.2')).toBeCloseTo(PROOF, -1);
    expect(of.remarks.join(' ')).toContain('the slack before it is left out');
  });

  it('that ends with a row of zeros takes the row before it for the last', async () => {
    const clean = rows(voce({ end: 0.3 }), { breaks: false });
    const of = await evaluated(csv([...clean, [0, 0, 0]]));
    expect(value(of, 'A')).toBeCloseTo(voce({ end: 0.3 }).known.elongationPercent ?? 0, 1);
    expect(of.remarks.join(' ')).toMatch(/last row has no load/);
  });

  it('of 21 points gives the strength, and no yield that the points can’t tell', async () => {
    const of = await evaluated(csv(rows(LAW, { readings: 21, breaks: false })));
    expect(Math.abs((value(of, 'Rm') ?? 0) - STRENGTH)).toBeLessThan(2);
    expect(reason(of, 'mE')).not.toBe('');
    expect(reason(of, 'Rp0.2')).not.toBe('');
  });

  it('taken at 10 Hz through yield says that the upper yield may be higher, or withholds it', async () => {
    // 40 MPa from one reading to the next, as at a fast crosshead.
    const of = await evaluated(csv(rows(yieldPointLaw(), { readings: 1_400 })));
    if (value(of, 'ReH') === undefined) expect(reason(of, 'ReH')).toContain('may have passed between them');
    else expect(of.results.ReH?.remarks?.join(' ')).toContain('may be higher');
  });

  it('of two million points is evaluated like one of few', async () => {
    const { known, ...law } = yieldPointLaw();
    const { stressMpa, strainRatio } = record({ known, ...law }, { readings: 2_000_000 });
    const lines = [HEADER];
    for (let i = 0; i < 2_000_000; i++)
      lines.push(
        `${(i / 1000).toFixed(3)},${(100 * (stressMpa?.[i] ?? 0)).toFixed(4)},${(50 * (strainRatio?.[i] ?? 0)).toFixed(7)}`,
      );
    lines.push('2000,0,14');
    const of = await documentOf(file('long.csv', lines.join('\n')));
    expect(value(of, 'Rm')).toBeCloseTo(known.strengthMpa ?? 0, 2);
    expect(value(of, 'ReH')).toBeCloseTo(known.upperYieldMpa ?? 0, 1);
    expect(value(of, 'ReL')).toBeCloseTo(known.lowerYieldMpa ?? 0, 0);
    // Making and reading a file of 60 MB takes its time on a busy machine; speed is in tests/bench.
  }, 180_000);
});
