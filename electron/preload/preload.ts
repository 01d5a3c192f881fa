/** Runs in the sandboxed page's isolated world and hands the page its bridge: two functions, no Electron, no Node. */
import { contextBridge, ipcRenderer } from 'electron';
import { CHANNELS } from '../main/channels.ts';

type Listener = (event: unknown) => void;
const listeners = new Map<string, Set<Listener>>();

ipcRenderer.on(CHANNELS.event, (_message, number: number, name: string, event: unknown) => {
  try {
    for (const listener of listeners.get(name) ?? []) listener(event);
  } finally {
    // Told only after the page has had it: what a slow page has not taken is not sent again and again.
    ipcRenderer.send(CHANNELS.taken, number);
  }
});
ipcRenderer.on(CHANNELS.ping, () => ipcRenderer.send(CHANNELS.pong));

// Told once the first picture is on the screen: until then main's one thread is needed for showing it.
new PerformanceObserver((_painted, watch) => {
  watch.disconnect();
  ipcRenderer.send(CHANNELS.shown);
}).observe({ type: 'paint', buffered: true });

const KNOWN_PLATFORMS = ['linux', 'win32', 'darwin'];

contextBridge.exposeInMainWorld('gaugemark', {
  request: (name: unknown, payload: unknown): Promise<unknown> =>
    ipcRenderer.invoke(CHANNELS.request, name, payload),
  on: (name: unknown, listener: unknown): (() => void) => {
    if (typeof name !== 'string' || typeof listener !== 'function')
      throw new TypeError('gaugemark.on takes the name of an event and a function');
    const its = listeners.get(name) ?? new Set();
    listeners.set(name, its);
    // Wrapped, so that the same function given twice is two subscriptions.
    const wrapped: Listener = (event) => (listener as Listener)(event);
    its.add(wrapped);
    if (its.size === 1) ipcRenderer.send(CHANNELS.listens, name);
    return () => {
      its.delete(wrapped);
    };
  },
  platform: KNOWN_PLATFORMS.includes(process.platform) ? process.platform : 'other',
});
