/**
 * How numbers are written on the screen: the decimal sign of the page's language, or the one that was chosen. Thousands
 * stand apart by a narrow blank in every form (ISO 80000-1:2022, 7.3.1: neither a point nor a comma sets digits apart),
 * so that a point or a comma is a decimal sign wherever it stands. Of files only pictures come through here, by `asInFiles`.
 */
import { signal } from '@preact/signals';

export const NUMBER_FORMS = ['language', 'point', 'comma'] as const;
export type NumberForm = (typeof NUMBER_FORMS)[number];
export type DecimalSign = '.' | ',';
export type Language = 'en' | 'es';

/** What a form looks like. */
export const NUMBER_SAMPLES = { point: '1\u202f234.5', comma: '1\u202f234,5' } as const;

/** The form that was chosen; whatever is drawn from it is drawn anew when it changes. */
export const numberForm = signal<NumberForm>('language');

const OF_LANGUAGE: Readonly<Record<Language, DecimalSign>> = { en: '.', es: ',' };

let isForFile = false;

/** Makes what goes into a file: with a point, whatever the page is written with. */
export function asInFiles<T>(make: () => T): T {
  isForFile = true;
  try {
    return make();
  } finally {
    isForFile = false;
  }
}

export function decimalSign(language: Language): DecimalSign {
  if (isForFile) return '.';
  const form = numberForm.value;
  return form === 'language' ? OF_LANGUAGE[language] : form === 'comma' ? ',' : '.';
}

/**
 * What the machine's own language suggests on a first start: "es-MX" writes a point though Spanish has a comma, "de-DE"
 * a comma though the page is English. `sample`: how that language writes 1.5.
 */
export function suggestedForm(language: Language, sample: string): NumberForm {
  const sign: DecimalSign = sample.includes(',') || sample.includes('\u066b') ? ',' : '.';
  return sign === OF_LANGUAGE[language] ? 'language' : sign === ',' ? 'comma' : 'point';
}
