import fc from 'fast-check';
import Qty from 'js-quantities';
import { unit as mathUnit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { exactFromDecimal, exactFromNumber, toNumber } from '../../../core/quantity/exact.ts';
import {
  CORE_UNIT,
  DIMENSIONS,
  UNITS,
  type UnitSymbol,
  convert,
  convertExact,
  factorToCore,
  unitFromText,
} from '../../../core/quantity/units.ts';

describe('exact factors', () => {
  // NIST SP 811, Appendix B, gives these exactly (bold); psi follows from 1 lbf and 1 in.
  it.each([
    ['in', 'mm', '25.4'],
    ['ft', 'mm', '304.8'],
    ['in²', 'mm²', '645.16'],
    ['lb', 'g', '453.59237'],
    ['lbf', 'N', '4.4482216152605'],
    ['kip', 'N', '4448.2216152605'],
    ['kgf', 'N', '9.80665'],
    ['min', 's', '60'],
  ] as const)('1 %s is exactly %s %s (NIST SP 811, Appendix B)', (from, to, factor) => {
    const one = exactFromNumber(1);
    expect(convertExact(one, from, to).equals(exactFromDecimal(factor) ?? 0)).toBe(true);
  });

  it('1 psi is exactly 4.4482216152605 / 645.16 MPa (NIST SP 811: 6.894 757 E+03 Pa)', () => {
    const psi = convertExact(exactFromNumber(1), 'psi', 'MPa');
    expect(psi.equals(exactFromNumber(4.4482216152605).div(exactFromNumber(645.16)))).toBe(true);
    expect(toNumber(psi)).toBe(0.006894757293168362);
  });

  it('goes from psi to MPa and back to the very same decimal', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 300_000 }), (psi) => {
        const mpa = convertExact(exactFromNumber(psi), 'psi', 'MPa');
        expect(convertExact(mpa, 'MPa', 'psi').equals(psi)).toBe(true);
        const there = convert(convert(psi, 'psi', 'MPa'), 'MPa', 'psi');
        expect(Math.abs(there / psi - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it('refuses to turn a force into a length', () => {
    expect(() => convert(1, 'N', 'mm')).toThrow(RangeError);
    expect(() => convertExact(exactFromNumber(1), 'psi', 'in')).toThrow(RangeError);
  });
});

describe('two general-purpose unit libraries agree', () => {
  /** Our symbol and target, theirs, and how far the library's own factor is rounded. */
  const JS_QUANTITIES: readonly [UnitSymbol, UnitSymbol, string, string, number][] = [
    ['in', 'mm', 'in', 'mm', 1e-14],
    ['ft', 'mm', 'ft', 'mm', 1e-14],
    ['mil', 'mm', 'mil', 'mm', 1e-14],
    ['µm', 'mm', 'um', 'mm', 1e-14],
    ['in²', 'mm²', 'in2', 'mm2', 1e-14],
    ['kN', 'N', 'kN', 'N', 1e-14],
    ['GPa', 'MPa', 'GPa', 'MPa', 1e-14],
    ['lb', 'g', 'lb', 'g', 1e-14],
    ['lb/in³', 'g/mm³', 'lb/in3', 'g/mm3', 1e-14],
    ['g/cm³', 'g/mm³', 'g/cm3', 'g/mm3', 1e-14],
    ['in/min', 'mm/s', 'in/min', 'mm/s', 1e-14],
    ['h', 's', 'h', 's', 1e-14],
    // This library keeps the pound-force to seven digits and the psi to six.
    ['lbf', 'N', 'lbf', 'N', 2e-7],
    ['psi', 'MPa', 'psi', 'MPa', 5e-7],
    ['ksi', 'MPa', 'kpsi', 'MPa', 5e-7],
    ['ft·lbf', 'J', 'ft*lbf', 'J', 2e-7],
  ];
  const MATHJS: readonly [UnitSymbol, UnitSymbol, string, string, number][] = [
    ['in', 'mm', 'in', 'mm', 1e-14],
    ['ft', 'mm', 'ft', 'mm', 1e-14],
    ['mil', 'mm', 'mil', 'mm', 1e-14],
    ['in²', 'mm²', 'in^2', 'mm^2', 1e-14],
    ['lbf', 'N', 'lbf', 'N', 1e-14],
    ['kgf', 'N', 'kgf', 'N', 1e-14],
    ['kN', 'N', 'kN', 'N', 1e-14],
    ['lb', 'g', 'lbm', 'g', 1e-14],
    ['oz', 'g', 'oz', 'g', 1e-14],
    ['lb/in³', 'g/mm³', 'lbm/in^3', 'g/mm^3', 1e-14],
    ['ft·lbf', 'J', 'ft*lbf', 'J', 1e-14],
    ['in/min', 'mm/s', 'in/minute', 'mm/s', 1e-14],
    ['min', 's', 'minute', 's', 1e-14],
    // This library keeps the psi and the kip to fewer digits.
    ['psi', 'MPa', 'psi', 'MPa', 1e-10],
    ['kip', 'N', 'kip', 'N', 1e-8],
  ];
  const values = fc.double({ min: 1e-6, max: 1e9, noNaN: true });
  const close = (ours: number, theirs: number, relative: number): void => {
    expect(Math.abs(ours - theirs)).toBeLessThanOrEqual((relative + 1e-14) * Math.abs(theirs));
  };

  it.each(JS_QUANTITIES)('js-quantities: %s to %s', (from, to, theirFrom, theirTo, relative) => {
    fc.assert(
      fc.property(values, (value) =>
        close(convert(value, from, to), Qty(value, theirFrom).to(theirTo).scalar, relative),
      ),
      { numRuns: 50 },
    );
  });

  it.each(MATHJS)('mathjs: %s to %s', (from, to, theirFrom, theirTo, relative) => {
    fc.assert(
      fc.property(values, (value) =>
        close(convert(value, from, to), mathUnit(value, theirFrom).toNumber(theirTo), relative),
      ),
      { numRuns: 50 },
    );
  });
});

describe('spellings', () => {
  it.each([
    ['inches', 'in'],
    ['"', 'in'],
    ['LBF', 'lbf'],
    ['lbs', 'lbf'],
    ['PSI', 'psi'],
    ['N/mm2', 'MPa'],
    ['kgf', 'kgf'],
    ['percent', '%'],
    ['mm/mm', '1'],
    ['g/cm3', 'g/cm³'],
    ['in.', 'in'],
  ])('%s is %s', (text, symbol) => {
    expect(unitFromText(text)?.symbol).toBe(symbol);
  });

  it('knows no unit by an inherited property name', () => {
    for (const text of ['constructor', '__proto__', 'toString', '']) expect(unitFromText(text)).toBeNull();
  });

  it('has a core unit of factor one in every dimension', () => {
    for (const dimension of DIMENSIONS) {
      expect(UNITS[CORE_UNIT[dimension]].dimension).toBe(dimension);
      expect(factorToCore(CORE_UNIT[dimension])).toBe(1);
    }
  });

  it('reads every symbol that it writes', () => {
    for (const symbol of Object.keys(UNITS)) expect(unitFromText(symbol)?.symbol).toBe(symbol);
  });
});
