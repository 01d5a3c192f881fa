/** How the page shows things: units, ground, language, size of the digits. Never touches what is recorded. */
import { computed, effect, signal } from '@preact/signals';
import { z } from 'zod';
import { THEME_NAMES, type ThemeName } from '../design/palette.ts';
import { UNIT_SYSTEMS } from '../numbers/display-unit.ts';

export const DIGIT_SIZES_MM = [13, 18, 25] as const;

const settings = z.object({
  units: z.enum(UNIT_SYSTEMS).catch('SI'),
  theme: z.enum(['system', ...THEME_NAMES]).catch('system'),
  language: z.enum(['en', 'es']).catch('en'),
  digitsMm: z.union(DIGIT_SIZES_MM.map((mm) => z.literal(mm))).catch(18),
});
export type ViewSettings = z.infer<typeof settings>;

const KEY = 'gaugemark.view';

function remembered(): ViewSettings {
  const fresh = (): ViewSettings => {
    const language = globalThis.navigator?.language.startsWith('es') ? 'es' : 'en';
    const region = globalThis.navigator?.language.endsWith('-US') ? 'US' : 'SI';
    return { units: region, theme: 'system', language, digitsMm: 18 };
  };
  const text = globalThis.localStorage?.getItem(KEY);
  if (text === null || text === undefined) return fresh();
  try {
    return settings.parse(JSON.parse(text));
  } catch {
    // A damaged setting is no reason to show nothing.
    return fresh();
  }
}

export const viewSettings = signal<ViewSettings>(remembered());
export const units = computed(() => viewSettings.value.units);
export const language = computed(() => viewSettings.value.language);

export function changeView(change: Partial<ViewSettings>): void {
  viewSettings.value = { ...viewSettings.value, ...change };
}

const media = (query: string): MediaQueryList | undefined => globalThis.matchMedia?.(query);
const dark = media('(prefers-color-scheme: dark)');
const moreContrast = media('(prefers-contrast: more)');
const systemTheme = signal<ThemeName>(themeOfSystem());

function themeOfSystem(): ThemeName {
  if (moreContrast?.matches === true) return 'contrast';
  return dark?.matches === true ? 'soot' : 'chalk';
}

/** The ground that is shown: the chosen one, or the system's. */
export const theme = computed<ThemeName>(() =>
  viewSettings.value.theme === 'system' ? systemTheme.value : viewSettings.value.theme,
);

/** Remembers the settings and follows the system from then on. */
export function keepViewSettings(): void {
  effect(() => globalThis.localStorage?.setItem(KEY, JSON.stringify(viewSettings.value)));
  for (const query of [dark, moreContrast]) {
    query?.addEventListener('change', () => (systemTheme.value = themeOfSystem()));
  }
}
