/**
 * The measure of ease: key presses from a set that is made to its certificate, without a mouse, in the real window.
 * Characters typed into entries are counted apart.
 */
import { join } from 'node:path';
import { GaugemarkWindow } from '../app/support/gaugemark-window.ts';
import { PRESSES_MAX, fromSetToCertificate, readyForKeyboard } from '../app/support/keyboard-path.ts';
import { benchFolder } from './support/bench-recorder.ts';
import { goalText, printTable } from './support/table.ts';

const folder = benchFolder();
const window = await GaugemarkWindow.open({ folder });
try {
  await readyForKeyboard(window, join(folder, 'certificate.pdf'));
  const { presses, characters } = await fromSetToCertificate(window);
  const row = { floor: '', ratio: '', spread: '' };
  printTable('Ease', [
    {
      ...row,
      what: 'key presses from the set to its certificate, no mouse',
      measured: String(presses),
      goal: goalText(`≤ ${String(PRESSES_MAX)}`, presses <= PRESSES_MAX),
    },
    { ...row, what: 'characters typed into entries meanwhile', measured: String(characters), goal: '' },
  ]);
} finally {
  await window.end();
}
process.exit(0);
