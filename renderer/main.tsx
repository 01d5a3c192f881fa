/** Entry of the page in the window. */
import type { Bridge } from '../core/contract/bridge.ts';
import { typesAreThere } from './design/types-there.ts';
import { startPage } from './start-page.tsx';

declare global {
  /** Put there by the preload script before the page runs. */
  var gaugemark: Bridge;
}

const at = document.getElementById('page');
if (at === null) throw new Error('index.html has no element "page"');
void typesAreThere().then(() => {
  // What was painted first goes in the task in which the stations come.
  at.replaceChildren();
  startPage(gaugemark, at);
});
