/** Numbers as they stand on the screen: by locale, with fixed places. Of files only pictures come through here (`asInFiles`). */
import { type UnitSymbol, UNITS, convert } from '../../core/quantity/units.ts';
import { type DecimalSign, type Language, decimalSign } from './number-form.ts';
import type { UnitSystem } from './display-unit.ts';
import { displayUnit } from './display-unit.ts';

export type { Language } from './number-form.ts';

/** Places behind the decimal sign that a reading in this unit deserves on a screen. */
const PLACES: Partial<Record<UnitSymbol, number>> = {
  N: 0,
  kN: 2,
  lbf: 0,
  kip: 3,
  mm: 3,
  in: 4,
  'mm²': 2,
  'in²': 4,
  MPa: 1,
  psi: 0,
  ksi: 1,
  GPa: 1,
  Msi: 2,
  '%': 1,
  s: 1,
  'mm/min': 2,
  'in/min': 3,
  g: 2,
  lb: 4,
  'MPa/s': 2,
  'psi/s': 0,
  J: 1,
  'ft·lbf': 1,
};

export function placesOf(unit: UnitSymbol): number {
  return PLACES[unit] ?? 3;
}

const formats = new Map<string, Intl.NumberFormat>();

/** Groups and decimal sign are put in by ourselves, so any language's digits do. */
const DIGITS_OF = 'en';

function written(format: Intl.NumberFormat, value: number, sign: DecimalSign): string {
  return format
    .formatToParts(value)
    .map(({ type, value: part }) =>
      type === 'group' ? '\u202f' : type === 'minusSign' ? '−' : type === 'decimal' ? sign : part,
    )
    .join('');
}

/** "63.31", "14 230": fixed places, groups of three kept apart by a narrow blank, decimal sign by language or as chosen. */
export function fixed(value: number, places: number, language: Language): string {
  const key = String(places);
  let format = formats.get(key);
  if (format === undefined) {
    format = new Intl.NumberFormat(DIGITS_OF, {
      minimumFractionDigits: places,
      maximumFractionDigits: places,
      useGrouping: true,
      // A zero has no sign, whichever side it was rounded from.
      signDisplay: 'negative',
    });
    formats.set(key, format);
  }
  return written(format, value, decimalSign(language));
}

/** A number at the beginning, what stands behind it. */
const SHOWN = /^([+\-−]?)(\d+)(?:\.(\d+))?(?![\d.,])(.*)$/s;

/** "4 March 2026" of "2026-03-04": nobody takes the day for the month. Blank where it is no day. */
export function dayInWords(day: string, language: Language): string {
  const moment = new Date(`${day}T00:00Z`);
  return Number.isNaN(moment.getTime())
    ? ''
    : moment.toLocaleDateString(language === 'en' ? 'en-GB' : language, {
        dateStyle: 'long',
        timeZone: 'UTC',
      });
}

/**
 * A number as a readout showed it, "12.340 kN": every digit of it, grouped and with the decimal sign of the page. What is
 * no number stays as it is.
 */
export function asShown(text: string, language: Language): string {
  const parts = SHOWN.exec(text);
  if (parts === null) return text;
  const [, sign = '', whole = '', places, behind = ''] = parts;
  const grouped = whole.replace(/\B(?=(?:\d{3})+$)/g, '\u202f');
  const decimals = places === undefined ? '' : `${decimalSign(language)}${places}`;
  return `${sign === '-' ? '−' : sign}${grouped}${decimals}${behind}`;
}

/** A decimal that a rule has left, "46400" or "23.5", by locale; its digits stay what they are. */
export function asReported(text: string, language: Language): string {
  return fixed(Number(text), /\.(\d+)$/.exec(text)?.[1]?.length ?? 0, language);
}

/**
 * A value moved to the nearest step of its readout and written with that step's places: "5 072" in steps of 2.
 * `resolution` is what one last digit of the readout is worth, in the value's unit. Converted to another unit it is
 * no round number; the step is then the largest of 1, 2, 5 times a power of ten that is not coarser.
 */
export function atResolution(value: number, resolution: number, language: Language): string {
  const power = Math.floor(Math.log10(resolution * ROUNDING_NOISE));
  const lead = (resolution * ROUNDING_NOISE) / 10 ** power;
  const digit = lead >= 5 ? 5 : lead >= 2 ? 2 : 1;
  const places = Math.min(Math.max(0, -power), PLACES_MAX);
  const step = digit * 10 ** power;
  return fixed(Number((Math.round(value / step) * step).toFixed(places)), places, language);
}
/** A resolution converted there and back is a little off its round number. */
const ROUNDING_NOISE = 1 + 1e-9;
/** More places than any readout shows. */
const PLACES_MAX = 8;

/** A value of a known unit shown in the unit of the chosen system, unit included. */
export function quantityText(
  value: number,
  unit: UnitSymbol,
  system: UnitSystem,
  language: Language,
): string {
  const target = displayUnit(UNITS[unit].dimension, system);
  return `${fixed(convert(value, unit, target), placesOf(target), language)} ${target}`;
}

/** At most this many significant digits, no trailing zeros; for formula inputs, where places differ. */
export function significant(value: number, digits: number, language: Language): string {
  const format = new Intl.NumberFormat(DIGITS_OF, { maximumSignificantDigits: digits, useGrouping: true });
  return written(format, value, decimalSign(language));
}

/** "0:07.4", "12:30.0": minutes and seconds, for elapsed time. */
export function elapsedText(seconds: number, language: Language): string {
  const sign = seconds < 0 ? '−' : '';
  const tenths = Math.round(Math.abs(seconds) * 10);
  const minutes = Math.floor(tenths / 600);
  const rest = (tenths - minutes * 600) / 10;
  return `${sign}${String(minutes)}:${rest < 10 ? '0' : ''}${fixed(rest, 1, language)}`;
}

/** A moment on the wall clock by the computer's zone, "2026-11-25 11:24:19": the same to every reader. */
export function momentText(wallMs: number): string {
  const moment = new Date(wallMs);
  const two = (n: number): string => String(n).padStart(2, '0');
  const day = `${String(moment.getFullYear())}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
  return `${day} ${clockText(wallMs)}`;
}

/** The time of day alone, "11:24:19". */
export function clockText(wallMs: number): string {
  const moment = new Date(wallMs);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${two(moment.getHours())}:${two(moment.getMinutes())}:${two(moment.getSeconds())}`;
}
