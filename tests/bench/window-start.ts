/**
 * From starting the program to its first picture, to its first view, and to a window that can be used (the view is drawn, the
 * pointer is heard in it, the recorder answers its page), against a small Electron program with one page of one sentence.
 * Both are started bare and watched by the same observer: all moments are noted where they happen, and nobody asks by turns
 * whether they have come. Settings and what the engines keep of scripts are there already, as at any start but the first;
 * the recorder is started by the window and ends in order after each.
 */
import { join } from 'node:path';
import { projectFolder } from '../../electron/setup/places.mjs';
import { recordersOf } from '../app/support/processes.ts';
import { until } from '../app/support/until.ts';
import { benchFolder } from './support/bench-recorder.ts';
import { type ObservedStart, observedStart } from './support/observed-start.ts';
import { alternate } from './support/rounds.ts';
import { writeSmallPage } from '../app/support/small-page.ts';
import { comparedRow, printTable } from './support/table.ts';

const ROUNDS = 9;

const folder = benchFolder();
const smallPage = await writeSmallPage(folder, null);
const archive = join(folder, 'pulls.gaugemark');

const startSmallPage = (): Promise<ObservedStart> =>
  observedStart({ folder, settings: join(folder, 'small-settings'), args: [smallPage], shown: 'p' });

async function startProgram(): Promise<ObservedStart> {
  const seen = await observedStart({
    folder,
    settings: join(folder, 'settings'),
    args: [projectFolder, '--archive', archive],
    shown: 'nav',
  });
  for (const pid of recordersOf(archive)) process.kill(pid, 'SIGTERM');
  await until(() => recordersOf(archive).length === 0, 'the recorder ends');
  return seen;
}

// The engine keeps what it has made of a script from the second run on.
for (let warm = 0; warm < 3; warm++) {
  await startSmallPage();
  await startProgram();
}
const { floor, measured } = await alternate(ROUNDS, { floor: startSmallPage, measured: startProgram });
const row = (what: string, moment: keyof ObservedStart, atMost?: number) =>
  comparedRow({
    what,
    unit: 'ms',
    floor: floor.map((one) => one[moment]),
    measured: measured.map((one) => one[moment]),
    ...(atMost === undefined ? {} : { atMost }),
  });
printTable('Starting', [
  row('start to the first picture', 'pictureMs', 1.2),
  row('start to the first view drawn', 'viewMs'),
  row('start to a view in which the pointer is heard', 'heardMs'),
  row('start to usable: view drawn, pointer heard, recorder answers', 'usableMs', 1.2),
]);
process.exit(0);
