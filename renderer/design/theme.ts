/** Puts the palette into the page as custom properties, so that style sheets and canvases use the same colours. */
import { effect } from '@preact/signals';
import { type ViewSettings, theme, viewSettings } from '../store/view-settings.ts';
import { PALETTES } from './palette.ts';

/**
 * Height of a digit of B612 as part of the font size, measured on "7" (flat top) at 1000 px.
 * Digit sizes are promised in millimetres, so the size of the font follows from it.
 */
export const DIGIT_HEIGHT_OF_EM = 0.75;
/** Parts of the em, rounded up: a digit of B612 Bold, the place kept for a sign, letters of the unit with the gap before it. */
const DIGIT_WIDTH_OF_EM = 0.64;
const SIGN_WIDTH_OF_EM = 0.62;
const UNIT_LETTER_OF_EM = 0.2;
const UNIT_M_OF_EM = 0.28;
const UNIT_GAP_OF_EM = 0.12;

/** Width of a figure in ems: `room` digits, a place for the sign, its unit. */
export const figureEms = (room: number, unit: string, isSigned = true): number =>
  room * DIGIT_WIDTH_OF_EM +
  (isSigned ? SIGN_WIDTH_OF_EM : 0) +
  UNIT_GAP_OF_EM +
  Array.from(unit).reduce((sum, letter) => sum + (letter === 'm' ? UNIT_M_OF_EM : UNIT_LETTER_OF_EM), 0);

/** CSS: 96 px are one inch. */
export const PX_PER_MM = 96 / 25.4;

export const fontSizeForDigitMm = (mm: number): number => (mm * PX_PER_MM) / DIGIT_HEIGHT_OF_EM;

/** Nothing that is read at the frame is lower than this, and digits never grow beyond that. */
export const DIGIT_MM_MIN = 13;
export const DIGIT_MM_MAX = 25;

/** Digits beside which the words have their usual size. */
const DIGIT_MM_OF_WORDS = 18;

/** Where nothing is chosen: digits of the load by the width of the window (17 mm at 1 440 px), of the others as part of it. */
const FIT_VW = 5.9;
const FIT_BESIDE_PART = 0.66;

/** CSS font size for the load's digits: the chosen height, whatever it costs, or one that goes with the window. */
export function digitFontSize(chosen: ViewSettings['digitsMm'], part = 1): string {
  if (chosen !== 'fit') return fontPx(Math.max(DIGIT_MM_MIN, Number(chosen)));
  return `clamp(${fontPx(DIGIT_MM_MIN)}, ${(FIT_VW * part).toFixed(2)}vw, ${fontPx(DIGIT_MM_MAX * part)})`;
}

/** Words that are read with the digits grow as they do; 1 up to DIGIT_MM_OF_WORDS. */
export const grownWith = (chosen: ViewSettings['digitsMm']): number =>
  chosen === 'fit' ? 1 : Math.max(1, Number(chosen) / DIGIT_MM_OF_WORDS);

/** A row of figures that shares the width of its container. */
export interface DigitRow {
  /** Widths of the figures that get the size, in ems of it, together. */
  readonly ems: number;
  /** CSS length that is taken already: gaps, a figure with a size of its own. */
  readonly taken: string;
}

/**
 * CSS font size of the figures beside and beneath the load: its own height where the container is wide enough for all
 * of their row, else as much of it as fits, never below DIGIT_MM_MIN.
 */
export function sharedFontSize(chosen: ViewSettings['digitsMm'], { ems, taken }: DigitRow): string {
  const fits = `calc((100cqi - ${taken}) / ${ems.toFixed(2)})`;
  return `clamp(${fontPx(DIGIT_MM_MIN)}, ${fits}, ${digitFontSize(chosen, chosen === 'fit' ? FIT_BESIDE_PART : 1)})`;
}

/** Font size of the load over that of two rows of figures beside it: as high as both with their names. */
const LOAD_OF_TWO_ROWS = 2;

/** The load as high as the two rows of the other figures that stand beside it. */
export interface LoadBesideRows {
  readonly loadEms: number;
  /** Of the columns of the others together, in ems of theirs. */
  readonly othersEms: number;
  /** CSS length between load and columns, all gaps together. */
  readonly gaps: string;
}

/** CSS font sizes of the two, where nothing is chosen; see `leastBesidePx` for the width they need. */
export function besideFontSizes({ loadEms, othersEms, gaps }: LoadBesideRows): {
  readonly load: string;
  readonly others: string;
} {
  const others = `clamp(${fontPx(DIGIT_MM_MIN)}, ${(FIT_VW * FIT_BESIDE_PART).toFixed(2)}vw, ${fontPx(DIGIT_MM_MAX)})`;
  const fits = `calc((100cqi - ${gaps} - ${othersEms.toFixed(2)} * ${others}) / ${loadEms.toFixed(2)})`;
  return {
    others,
    load: `max(${fontPx(DIGIT_MM_MIN)}, min(${fits}, ${String(LOAD_OF_TWO_ROWS)} * ${others}))`,
  };
}

/** Px without gaps: where there is less, the figures stand in rows beneath each other. */
export const leastBesidePx = ({ loadEms, othersEms }: LoadBesideRows): number =>
  (loadEms + othersEms) * fontSizeForDigitMm(DIGIT_MM_MIN);

const fontPx = (mm: number): string => `${fontSizeForDigitMm(mm).toFixed(1)}px`;

/** Follows the chosen theme from now on. */
export function applyTheme(root: HTMLElement): void {
  effect(() => {
    root.dataset['theme'] = theme.value;
    for (const [name, colour] of Object.entries<string>({ ...PALETTES[theme.value] })) {
      root.style.setProperty(`--${name.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`)}`, colour);
    }
    root.style.colorScheme = theme.value === 'chalk' ? 'light' : 'dark';
  });
  effect(() => {
    root.lang = viewSettings.value.language;
  });
}
