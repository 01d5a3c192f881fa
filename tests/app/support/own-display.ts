/**
 * Before each file of window tests: a display of its own for each worker. A window that opens or closes above another one
 * takes from it the pointer that holds a button.
 */
import { displaysIn } from './displays.ts';

const displays = displaysIn(process.env);
if (displays.length > 0) {
  const own = displays[Number(process.env['VITEST_POOL_ID']) - 1];
  if (own === undefined)
    throw new Error(
      `There are ${String(displays.length)} displays and none for worker ${String(process.env['VITEST_POOL_ID'])}.`,
    );
  process.env['DISPLAY'] = own;
}
