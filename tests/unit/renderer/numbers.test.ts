import { afterEach, describe, expect, it } from 'vitest';
import { certificateCsv } from '../../../core/certificate/certificate-csv.ts';
import { composeCertificate } from '../../../core/certificate/compose-certificate.ts';
import { curvePlot } from '../../../core/drawing/curve-plot.ts';
import { svgText } from '../../../core/drawing/svg-text.ts';
import { parseQuantity } from '../../../core/quantity/parse-quantity.ts';
import { usuallyReported } from '../../../core/results/reported-in.ts';
import {
  NUMBER_FORMS,
  asInFiles,
  decimalSign,
  numberForm,
  suggestedForm,
} from '../../../renderer/numbers/number-form.ts';
import { exampleInput } from '../certificate/example-input.ts';
import { displayUnit, loadUnit, unitForValue } from '../../../renderer/numbers/display-unit.ts';
import {
  asShown,
  atResolution,
  dayInWords,
  elapsedText,
  fixed,
  momentText,
  quantityText,
  significant,
} from '../../../renderer/numbers/format.ts';
import { unbroken } from '../../../renderer/numbers/prose.ts';

describe('numbers on the screen', () => {
  it('keep their places, so that digits do not wander', () => {
    expect(fixed(63.3, 2, 'en')).toBe('63.30');
    expect(fixed(0, 2, 'en')).toBe('0.00');
  });

  it('have a true minus sign and narrow blanks between thousands', () => {
    expect(fixed(-14230, 0, 'en')).toBe('−14\u202f230');
  });

  it('have no sign at a zero, whichever side it was rounded from', () => {
    expect(fixed(-0.0004, 3, 'en')).toBe('0.000');
    expect(fixed(-0.0006, 3, 'en')).toBe('−0.001');
  });

  it('have the decimal sign of the language', () => {
    expect(fixed(12.5, 1, 'es')).toBe('12,5');
  });

  // NIST SP 811, Appendix B: 1 lbf = 4.448 221 615 260 5 N, 1 in = 25.4 mm.
  it('are converted by exact factors when the other system is chosen', () => {
    expect(quantityText(4448.2216152605, 'N', 'US', 'en')).toBe('1\u202f000 lbf');
    expect(quantityText(50.8, 'mm', 'US', 'en')).toBe('2.0000 in');
    expect(quantityText(2, 'in', 'SI', 'en')).toBe('50.800 mm');
  });

  it('show elapsed time in minutes and seconds, before the start with a sign', () => {
    expect(elapsedText(7.44, 'en')).toBe('0:07.4');
    expect(elapsedText(-2.5, 'en')).toBe('−0:02.5');
    expect(elapsedText(59.96, 'en')).toBe('1:00.0');
    expect(elapsedText(754, 'es')).toBe('12:34,0');
  });

  it('say a day so that nobody takes it for the month, in the language of the page', () => {
    expect(dayInWords('2026-03-04', 'en')).toBe('4 March 2026');
    expect(dayInWords('2026-03-04', 'es')).toBe('4 de marzo de 2026');
    expect(dayInWords('', 'en')).toBe('');
  });

  it('write a moment the same way for every reader', () => {
    expect(momentText(new Date(2026, 2, 5, 9, 4, 7).getTime())).toBe('2026-03-05 09:04:07');
  });
});

describe('the unit shown', () => {
  it('is N for a thin wire and kN for a plate, lbf in either case in US customary units', () => {
    expect(loadUnit(800, 'SI')).toBe('N');
    expect(loadUnit(60_000, 'SI')).toBe('kN');
    expect(loadUnit(800, 'US')).toBe('lbf');
  });

  it('is GPa or Msi for a modulus and MPa or psi for a strength', () => {
    expect(unitForValue(206_000, 'MPa', 'SI')).toBe('GPa');
    expect(unitForValue(206_000, 'MPa', 'US')).toBe('Msi');
    expect(unitForValue(455, 'MPa', 'US')).toBe('psi');
  });

  it('is one of the dimension itself where the systems have none of their own', () => {
    expect(displayUnit('energy', 'SI')).toBe('J');
    expect(displayUnit('strain-rate', 'US')).toBe('1/s');
  });
});

describe('a load by the step of its readout', () => {
  it('has the digits that the readout shows, in its own unit', () => {
    expect(atResolution(1234.5, 0.1, 'en')).toBe('1\u202f234.5');
    expect(atResolution(1234, 1, 'en')).toBe('1\u202f234');
    expect(atResolution(0.1, 0.01, 'en')).toBe('0.10');
    expect(atResolution(3180, 10, 'en')).toBe('3\u202f180');
  });

  // NIST SP 811, Appendix B: 1 lbf = 4.448 221 615 260 5 N.
  it('gets no digits in another unit that the readout never had, and loses none', () => {
    // 10 N are 2.248 lbf: steps of 2 lbf, not of 1.
    expect(atResolution(22_570 / 4.4482216152605, 10 / 4.4482216152605, 'en')).toBe('5\u202f074');
    // 1 N is 0.2248 lbf: steps of 0.2 lbf.
    expect(atResolution(22_571 / 4.4482216152605, 1 / 4.4482216152605, 'en')).toBe('5\u202f074.2');
    // 1 lbf is 0.004448 kN: steps of 0.002 kN.
    expect(atResolution(5_071 * 0.0044482216152605, 0.0044482216152605, 'en')).toBe('22.556');
  });

  it('keeps readings of neighbouring steps apart, in either system', () => {
    for (const resolution of [1, 2, 5, 0.1, 10].map((n) => n / 4.4482216152605)) {
      const shown = Array.from({ length: 50 }, (_, i) =>
        atResolution((1000 + i) * resolution, resolution, 'en'),
      );
      expect(new Set(shown).size).toBe(shown.length);
    }
  });
});

describe('the form of numbers that was chosen', () => {
  afterEach(() => {
    numberForm.value = 'language';
  });

  it('counts before the language: an English page with a comma, a Spanish one with a point', () => {
    numberForm.value = 'comma';
    expect(fixed(-14_230.5, 1, 'en')).toBe('−14\u202f230,5');
    expect(significant(0.001234, 3, 'en')).toBe('0,00123');
    expect(elapsedText(59.96, 'en')).toBe('1:00,0');
    numberForm.value = 'point';
    expect(fixed(14_230.5, 1, 'es')).toBe('14\u202f230.5');
  });

  // ISO 80000-1:2022, 7.3.1 (from memory): digits are set apart by a small space, never by a point or a comma.
  it('never sets thousands apart by a sign that could be a decimal sign', () => {
    for (const form of NUMBER_FORMS)
      for (const language of ['en', 'es'] as const) {
        numberForm.value = form;
        expect(fixed(1_234_567, 0, language)).toBe('1\u202f234\u202f567');
        expect(fixed(1_234.5, 1, language)).toMatch(/^1\u202f234[.,]5$/);
      }
  });

  it('is suggested by the machine’s own language where that writes numbers otherwise than the page', () => {
    expect(suggestedForm('en', '1.5')).toBe('language');
    expect(suggestedForm('en', '1,5')).toBe('comma');
    expect(suggestedForm('es', '1.5')).toBe('point');
    expect(suggestedForm('es', '1,5')).toBe('language');
  });

  it('is read again as it is written, in every form', () => {
    for (const form of NUMBER_FORMS) {
      numberForm.value = form;
      // Three places behind a comma could be thousands as well, and are refused rather than guessed.
      for (const [value, places] of [
        [12.7, 1],
        [0.25, 2],
        [14_230, 0],
        [1.2345, 4],
      ] as const) {
        const read = parseQuantity(`${fixed(value, places, 'en')} mm`, { dimension: 'length' });
        expect(read.ok ? read.quantity.core : read.fault).toBe(value);
      }
    }
  });

  it('writes what a readout showed with every digit of it', () => {
    expect(asShown('12.340 kN', 'en')).toBe('12.340 kN');
    expect(asShown('12.340 kN', 'es')).toBe('12,340 kN');
    expect(asShown('-1234567.80 N', 'es')).toBe('−1\u202f234\u202f567,80 N');
    expect(asShown('0.10', 'es')).toBe('0,10');
    // Words of a readout, and what is no number, stay as they came.
    for (const text of ['overload', 'out-of-range', '1.2.3', '12,5 kN', ''])
      expect(asShown(text, 'es')).toBe(text);
  });

  it('never reaches a file', () => {
    const files = (): string[] => [
      certificateCsv(composeCertificate(exampleInput())),
      svgText(
        curvePlot({
          widthMm: 120,
          heightMm: 80,
          title: 'T',
          x: { title: 'extension', unit: 'mm' },
          y: { title: 'load', unit: 'kN' },
          traces: [{ name: 'a', x: [0, 0.5], y: [0, 1.5], length: 2 }],
        }),
      ),
    ];
    const before = files();
    numberForm.value = 'comma';
    expect(files()).toEqual(before);
    // A picture that is drawn with a comma on the page has a point in its file, whatever goes wrong while it is made.
    const drawn = (): string => `${fixed(1.5, 1, 'es')} ${significant(0.25, 2, 'en')} ${decimalSign('es')}`;
    expect(drawn()).toBe('1,5 0,25 ,');
    expect(asInFiles(drawn)).toBe('1.5 0.25 .');
    expect(() =>
      asInFiles(() => {
        throw new Error('no picture');
      }),
    ).toThrow('no picture');
    expect(drawn()).toBe('1,5 0,25 ,');
  });
});

// ISO 6892-1:2019, clause 22 (from memory): strengths to the nearest 1 MPa; ASTM E8/E8M 7.14.1: 100 psi below 50 000, 500 below 100 000.
it('a strength in a list is rounded as results are, by the usual rule of the units shown', () => {
  expect(usuallyReported(435.37, 'SI')).toMatchObject({ text: '435', unit: 'MPa' });
  expect(usuallyReported(435.37, 'US')).toMatchObject({ text: '63000', unit: 'psi' });
});

it('keeps a number and its unit, and a standard and its number, on one line of a sentence', () => {
  expect(
    unbroken('the width is 12.47 mm on average; at 70 000 psi, 5 % below, by ISO 7500-1 and ASTM E4'),
  ).toBe(
    'the width is 12.47\u00a0mm on average; at 70\u202f000\u00a0psi, 5\u00a0% below, by ISO\u00a07500-1 and ASTM\u00a0E4',
  );
  // No unit, though it begins like one.
  expect(unbroken('3 markers, 2 pulls, 7 sizes')).toBe('3 markers, 2 pulls, 7 sizes');
});
