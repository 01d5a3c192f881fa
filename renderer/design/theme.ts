/** Puts the palette into the page as custom properties, so that style sheets and canvases use the same colours. */
import { effect } from '@preact/signals';
import { type ViewSettings, theme, viewSettings } from '../store/view-settings.ts';
import { PALETTES } from './palette.ts';

/**
 * Height of a digit of B612 as part of the font size, measured on "7" (flat top) at 1000 px.
 * Digit sizes are promised in millimetres, so the size of the font follows from it.
 */
export const DIGIT_HEIGHT_OF_EM = 0.75;
/** CSS: 96 px are one inch. */
export const PX_PER_MM = 96 / 25.4;

export const fontSizeForDigitMm = (mm: number): number => (mm * PX_PER_MM) / DIGIT_HEIGHT_OF_EM;

/** Nothing that is read at the frame is lower than this, and digits never grow beyond that. */
export const DIGIT_MM_MIN = 13;
export const DIGIT_MM_MAX = 25;
/** Digits that fit the window: 17 mm at 1 440 px, so that all figures stand in one row there. */
const FIT_VW = 5.9;

/** CSS font size for digits of a chosen height, or of a part of it (the peak stands at half the size beside the load). */
export function digitFontSize(chosen: ViewSettings['digitsMm'], part = 1): string {
  const px = (mm: number): string => `${fontSizeForDigitMm(mm).toFixed(1)}px`;
  if (chosen !== 'fit') return px(Math.max(DIGIT_MM_MIN, Number(chosen) * part));
  return `clamp(${px(DIGIT_MM_MIN)}, ${(FIT_VW * part).toFixed(2)}vw, ${px(DIGIT_MM_MAX * part)})`;
}

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
