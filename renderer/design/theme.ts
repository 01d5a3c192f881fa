/** Puts the palette into the page as custom properties, so that style sheets and canvases use the same colours. */
import { effect } from '@preact/signals';
import { theme, viewSettings } from '../store/view-settings.ts';
import { PALETTES } from './palette.ts';

/**
 * Height of a digit of B612 as part of the font size, measured on "7" (flat top) at 1000 px.
 * Digit sizes are promised in millimetres, so the size of the font follows from it.
 */
export const DIGIT_HEIGHT_OF_EM = 0.75;
/** CSS: 96 px are one inch. */
export const PX_PER_MM = 96 / 25.4;

export const fontSizeForDigitMm = (mm: number): number => (mm * PX_PER_MM) / DIGIT_HEIGHT_OF_EM;

/** Follows the chosen theme and digit size from now on. */
export function applyTheme(root: HTMLElement): void {
  effect(() => {
    root.dataset['theme'] = theme.value;
    for (const [name, colour] of Object.entries<string>({ ...PALETTES[theme.value] })) {
      root.style.setProperty(`--${name.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`)}`, colour);
    }
    root.style.colorScheme = theme.value === 'chalk' ? 'light' : 'dark';
  });
  effect(() => {
    root.style.setProperty('--digits', `${fontSizeForDigitMm(viewSettings.value.digitsMm).toFixed(1)}px`);
  });
  effect(() => {
    root.lang = viewSettings.value.language;
  });
}
