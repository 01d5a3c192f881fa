/** The ground is the program's choice too (menu, window frame), so the two are kept in step. */
import type { Bridge } from '../../core/contract/bridge.ts';
import type { Theme } from '../../core/contract/window-requests.ts';
import { request } from './session-store.ts';
import { type ViewSettings, changeView, viewSettings } from './view-settings.ts';

const WINDOW_THEME: Readonly<Record<ViewSettings['theme'], Theme>> = {
  system: 'system',
  chalk: 'light',
  soot: 'dark',
  contrast: 'dark',
};
const PAGE_THEME: Readonly<Record<Theme, ViewSettings['theme']>> = {
  system: 'system',
  light: 'chalk',
  dark: 'soot',
};

export function chooseTheme(theme: ViewSettings['theme']): void {
  changeView({ theme });
  // Where the window can't follow, the page has its ground all the same.
  void request('window.set-theme', { theme: WINDOW_THEME[theme] });
}

/** Follows the choice made in the menu. High contrast is the page's own and stays while the frame is dark. */
export function followWindowTheme(bridge: Bridge): () => void {
  return bridge.on('appearance', ({ theme }) => {
    if (WINDOW_THEME[viewSettings.value.theme] !== theme) changeView({ theme: PAGE_THEME[theme] });
  });
}
