/** Starts the page on a bridge: the program's, or a made-up one in tests. */
import './no-code-from-text.ts';
import { render } from 'preact';
import type { Bridge } from '../core/contract/bridge.ts';
import { App } from './app.tsx';
import { applyTheme } from './design/theme.ts';
import { followMenu } from './keys/menu-commands.tsx';
import { listenToKeys } from './keys/page-keys.ts';
import { keepPaper } from './stations/certificate/certificate-choice.ts';
import { followEndedPull } from './stations/opened-pull.ts';
import { keepBeep } from './design/beep.ts';
import { keepPlan } from './stations/pull/pull-plan.ts';
import { keepReadoutChoice } from './stations/readout/readout-choice.ts';
import { loadScenarios } from './stations/readout/scenarios.ts';
import { followOpenSet } from './stations/set/open-set.ts';
import { keepPerson } from './stations/set/person.ts';
import { keepSetDraft } from './stations/set/set-draft.ts';
import { rememberPlace } from './store/place.ts';
import { connectStore } from './store/session-store.ts';
import { keepDraft } from './store/specimen-draft.ts';
import { followWindowTheme } from './store/theme-choice.ts';
import { keepViewSettings } from './store/view-settings.ts';
import './design/base.css';

export function startPage(bridge: Bridge, at: HTMLElement): void {
  keepViewSettings();
  applyTheme(document.documentElement);
  rememberPlace();
  keepDraft();
  keepPlan();
  keepBeep();
  keepSetDraft();
  keepPerson();
  keepPaper();
  keepReadoutChoice();
  connectStore(bridge);
  followWindowTheme(bridge);
  followMenu(bridge);
  followEndedPull();
  followOpenSet();
  loadScenarios();
  listenToKeys();
  render(<App />, at);
}
