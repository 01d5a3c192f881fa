/** The look of the window's frame that belongs to a chosen look of the page. */
import { nativeTheme } from 'electron';
import type { Theme } from '../../core/contract/looks.ts';

/** Light, dark or the system's: a frame has no high contrast of its own, and dark stands nearest. */
export function frameTheme(theme: Theme): 'system' | 'light' | 'dark' {
  return theme === 'contrast' ? 'dark' : theme;
}

/** What a page is drawn on. */
export type Ground = 'light' | 'dark' | 'contrast';

/** What the page will be drawn on, as it chooses for itself. */
export function groundOf(theme: Theme): Ground {
  if (theme === 'contrast' || (theme === 'system' && nativeTheme.shouldUseHighContrastColors))
    return 'contrast';
  return nativeTheme.shouldUseDarkColors ? 'dark' : 'light';
}
