/**
 * Before each file of window tests: a display of its own for each worker. A window that opens or closes above another one
 * takes from it the pointer that holds a button.
 */
import { displaysIn } from './displays.ts';

const own = displaysIn(process.env)[Number(process.env['VITEST_POOL_ID']) - 1];
if (own !== undefined) process.env['DISPLAY'] = own;
