/** Menu and dialogs are the window's own process's: they speak what the page speaks. */
import { effect } from '@preact/signals';
import type { Bridge } from '../../core/contract/bridge.ts';
import { ask } from '../bridge/ask.ts';
import { language } from './view-settings.ts';

/** Tells it now and whenever another language is chosen. Returns what stops it. */
export function tellLanguage(bridge: Bridge): () => void {
  return effect(() => void ask(bridge, 'window.set-language', { language: language.value }));
}
