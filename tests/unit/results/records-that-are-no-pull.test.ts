/** Records that look like a pull and are none, and what an honest record still tells; never a confident wrong number. */
import { describe, expect, it } from 'vitest';
import type { Curve } from '../../../core/curve/curve.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import type { Evaluation } from '../../../core/results/evaluation.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import type { Specimen } from '../../../core/specimen/specimen.ts';
import { record, voce } from './synthetic-curve.ts';

function specimen(more: object = {}, geometry: object = { kind: 'round', diameter: '10.00 mm' }): Specimen {
  const read = readSpecimen({ id: 'T-1', geometry, gaugeLength: '50 mm', ...more });
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.specimen;
}
const AREA = 25 * Math.PI;
const law = voce({ end: 0.2 });
const made = record(law);
const pull = {
  length: made.length,
  timeS: Float64Array.from({ length: made.length }, (_, i) => i * 0.02),
  forceN: (made.stressMpa ?? new Float64Array()).map((s) => s * AREA),
  extensionMm: (made.strainRatio ?? new Float64Array()).map((e) => e * 50),
} satisfies Curve;
const withheld = ({ withheld: all }: Evaluation, symbol: string) => all.find((w) => w.symbol === symbol);
const valueOf = ({ results }: Evaluation, symbol: string) => results.find((r) => r.symbol === symbol)?.value;

describe('a load that only stands there', () => {
  it('is no pull: no strength is taken from it', () => {
    const evaluation = evaluate({ ...pull, forceN: pull.timeS.map((t) => 5_000 + Math.sin(t)) }, specimen());
    expect(valueOf(evaluation, 'Rm')).toBeUndefined();
    expect(withheld(evaluation, 'Rm')?.reason).toMatch(/between 4999 and 5001 N .* nothing was pulled/);
  });

  it('and shows nothing but one step of its readout is told by that, not as a part of it', () => {
    const evaluation = evaluate({ ...pull, forceN: pull.timeS.map(() => 2) }, specimen());
    expect(withheld(evaluation, 'Rm')?.reason).toMatch(/^The load stays at 2 N over the whole record/);
  });
});

describe('a load in N that is called kN', () => {
  it('gives no strength that no metal has', () => {
    const evaluation = evaluate({ ...pull, forceN: pull.forceN.map((f) => f * 1_000) }, specimen());
    expect(valueOf(evaluation, 'Rm')).toBeUndefined();
    expect(withheld(evaluation, 'Rm')?.reason).toMatch(/no metal bears/);
  });
});

describe('A from the halves beside a record that says nothing', () => {
  it('is given once; what the extensometer would say is withheld under its own symbol', () => {
    const zeros = { ...pull, forceN: new Float64Array(pull.length) };
    const evaluation = evaluate(zeros, specimen({ finalGaugeLength: '62.0 mm' }));
    expect(valueOf(evaluation, 'A')).toBeCloseTo(24, 9);
    expect(withheld(evaluation, 'A')).toBeUndefined();
    expect(withheld(evaluation, 'A (extensometer)')).toBeDefined();
  });
});

describe('readings that are missing in the middle', () => {
  it('are no jump of the extensometer, which went on extending with the specimen', () => {
    const kept = Array.from({ length: pull.length }, (_, i) => i).filter((i) => i < 400 || i > 900);
    const column = (values: Float64Array) => Float64Array.from(kept, (i) => values[i] ?? 0);
    const evaluation = evaluate(
      {
        length: kept.length,
        timeS: column(pull.timeS),
        forceN: column(pull.forceN),
        extensionMm: column(pull.extensionMm),
      },
      specimen(),
    );
    expect(evaluation.marks.extensionTrustedUntil).toBeUndefined();
    expect(valueOf(evaluation, 'A')).toBeCloseTo(law.known.elongationPercent ?? 0, 1);
  });
});

describe('a load that does not come back to zero after the break', () => {
  const tail = (rest: number): Curve => ({
    length: pull.length + 60,
    forceN: Float64Array.from({ length: pull.length + 60 }, (_, i) => (pull.forceN[i] ?? 0) + rest),
    extensionMm: Float64Array.from(
      { length: pull.length + 60 },
      (_, i) => pull.extensionMm[i] ?? pull.extensionMm.at(-1) ?? 0,
    ),
  });
  it('is told with its size: the zero was off', () => {
    expect(evaluate(tail(900), specimen()).remarks.join(' ')).toMatch(/load rests at 900 N/);
    expect(evaluate(tail(0), specimen()).remarks.join(' ')).not.toMatch(/load rests/);
  });
});

describe('reduction of area of a shape that has no standard final section', () => {
  it('is withheld as undefined, not as unmeasured', () => {
    const tube = specimen({}, { kind: 'tube', outerDiameter: '30.0 mm', wall: '2.00 mm' });
    expect(withheld(evaluate(pull, tube), 'Z')?.reason).toMatch(/no standard final section/);
  });
});
