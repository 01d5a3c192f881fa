/** The page on a made-up bridge: for looking at it while developing. `?rate=1000&pace=4&silence=9` sets it up. */
import { startPage } from '../start-page.tsx';
import { MadeUpBridge } from './made-up-bridge.ts';

const asked = new URLSearchParams(location.search);
const number = (name: string, otherwise: number) => Number(asked.get(name) ?? otherwise);

const bridge = new MadeUpBridge({
  rateHz: number('rate', 50),
  pace: number('pace', 1),
  ...(asked.has('silence') ? { silence: { atS: number('silence', 9), forS: 3 } } : {}),
});
bridge.start();
const at = document.getElementById('page');
if (at !== null) startPage(bridge, at);
