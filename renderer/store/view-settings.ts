/** How the page shows things: units, ground, language, size of the digits. Never touches what is recorded. */
import { computed, effect, signal } from '@preact/signals';
import { z } from 'zod';
import { THEME_NAMES, type ThemeName } from '../design/palette.ts';
import { remember, rememberedOr } from './remembered.ts';
import { UNIT_SYSTEMS } from '../numbers/display-unit.ts';
import { NUMBER_FORMS, numberForm, suggestedForm } from '../numbers/number-form.ts';

/** Height of the load's digits: `fit` goes with the width of the window, the others hold whatever it costs. */
export const DIGIT_SIZES = ['fit', '13', '18', '25'] as const;

const settings = z.object({
  units: z.enum(UNIT_SYSTEMS).catch('SI'),
  theme: z.enum(['system', ...THEME_NAMES]).catch('system'),
  language: z.enum(['en', 'es']).catch('en'),
  digitsMm: z.enum(DIGIT_SIZES).catch('fit'),
  numbers: z.enum(NUMBER_FORMS).catch('language'),
});
export type ViewSettings = z.infer<typeof settings>;

const KEY = 'gaugemark.view';

/** What the system's language suggests on a first start. */
function suggested(): ViewSettings {
  const tongue = typeof navigator === 'undefined' ? 'en' : navigator.language;
  return {
    units: tongue.endsWith('-US') ? 'US' : 'SI',
    theme: 'system',
    language: tongue.startsWith('es') ? 'es' : 'en',
    digitsMm: 'fit',
    numbers: suggestedForm(tongue.startsWith('es') ? 'es' : 'en', new Intl.NumberFormat(tongue).format(1.5)),
  };
}

export const viewSettings = signal<ViewSettings>(rememberedOr(KEY, settings, suggested));
export const units = computed(() => viewSettings.value.units);
export const language = computed(() => viewSettings.value.language);

effect(() => {
  numberForm.value = viewSettings.value.numbers;
});

export function changeView(change: Partial<ViewSettings>): void {
  viewSettings.value = { ...viewSettings.value, ...change };
}

export const otherUnits = (): ViewSettings['units'] => (viewSettings.value.units === 'SI' ? 'US' : 'SI');

/** The size after the present one, the first after the last. */
export const nextDigits = (): ViewSettings['digitsMm'] =>
  DIGIT_SIZES[(DIGIT_SIZES.indexOf(viewSettings.value.digitsMm) + 1) % DIGIT_SIZES.length] ?? 'fit';

const media = (query: string): MediaQueryList | undefined =>
  typeof matchMedia === 'undefined' ? undefined : matchMedia(query);
const dark = media('(prefers-color-scheme: dark)');
const moreContrast = media('(prefers-contrast: more)');
/** Colours of the system's own choice: what is drawn by us keeps to the ground that stands out most. */
const forcedColours = media('(forced-colors: active)');
const systemTheme = signal<ThemeName>(themeOfSystem());

function themeOfSystem(): ThemeName {
  if (moreContrast?.matches === true || forcedColours?.matches === true) return 'contrast';
  return dark?.matches === true ? 'soot' : 'chalk';
}

/** The ground that is shown: the chosen one, or the system's. */
export const theme = computed<ThemeName>(() =>
  viewSettings.value.theme === 'system' ? systemTheme.value : viewSettings.value.theme,
);

/** Remembers the settings and follows the system from then on. */
export function keepViewSettings(): void {
  remember(KEY, () => viewSettings.value);
  for (const query of [dark, moreContrast, forcedColours]) {
    query?.addEventListener('change', () => (systemTheme.value = themeOfSystem()));
  }
}
