/** The ground is the program's choice too (menu, window frame), so the two are kept in step. */
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

export function chooseTheme(theme: ViewSettings['theme']): void {
  changeView({ theme });
  // Where the window can't follow, the page has its ground all the same.
  void request('window.set-theme', { theme: WINDOW_THEME[theme] });
}

/** Follows the choice made in the menu. */
export function followWindowTheme(bridge: Bridge): () => void {
  return bridge.on('appearance', ({ theme }) => {
    if (viewSettings.value.theme !== PAGE_THEME[theme]) changeView({ theme: PAGE_THEME[theme] });
  });
}
