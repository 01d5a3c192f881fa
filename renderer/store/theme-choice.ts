/** The ground is the program's choice too (menu, window frame), so the two are kept in step. */
import { effect } from '@preact/signals';
import type { Bridge } from '../../core/contract/bridge.ts';
import type { Theme } from '../../core/contract/looks.ts';
import { request } from './session-store.ts';
import { type ViewSettings, changeView, viewSettings } from './view-settings.ts';

const WINDOW_THEME: Readonly<Record<ViewSettings['theme'], Theme>> = {
  system: 'system',
  chalk: 'light',
  soot: 'dark',
  contrast: 'contrast',
};
const PAGE_THEME: Readonly<Record<Theme, ViewSettings['theme']>> = {
  system: 'system',
  light: 'chalk',
  dark: 'soot',
  contrast: 'contrast',
};

/** What the window was told, or has told, last. */
let windowHas: ViewSettings['theme'] | null = null;

function tellWindow(theme: ViewSettings['theme']): void {
  windowHas = theme;
  // Where the window can't follow, the page has its ground all the same.
  void request('window.set-theme', { theme: WINDOW_THEME[theme] });
}

export function chooseTheme(theme: ViewSettings['theme']): void {
  changeView({ theme });
  if (windowHas !== theme) tellWindow(theme);
}

/** Follows the choice made in the menu; the window follows the page's, also where it is taken back. */
export function followWindowTheme(bridge: Bridge): () => void {
  windowHas = viewSettings.peek().theme;
  const ends = [
    effect(() => {
      const { theme } = viewSettings.value;
      if (theme !== windowHas) tellWindow(theme);
    }),
    bridge.on('appearance', ({ theme }) => {
      windowHas = PAGE_THEME[theme];
      if (viewSettings.value.theme !== windowHas) changeView({ theme: windowHas });
    }),
  ];
  return () => {
    for (const end of ends) end();
  };
}
