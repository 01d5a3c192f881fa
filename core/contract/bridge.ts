/**
 * What the page finds as `window.gaugemark`: the whole of what it can reach. Requests go through main, which checks
 * sender and schema; those of the recorder's contract are handed on to it.
 */
import type { z } from 'zod';
import { contract, events } from './index.ts';
import type { Answer } from './message.ts';
import { windowEvents, windowRequests } from './window-requests.ts';

export const pageContract = { ...contract, ...windowRequests } as const;
export const pageEvents = { ...events, ...windowEvents } as const;

export type PageRequestName = keyof typeof pageContract;
export type PageRequestOf<N extends PageRequestName> = z.input<(typeof pageContract)[N]['request']>;
export type PageReplyOf<N extends PageRequestName> = z.output<(typeof pageContract)[N]['reply']>;
export type PageEventName = keyof typeof pageEvents;
export type PageEventOf<N extends PageEventName> = z.output<(typeof pageEvents)[N]>;

export interface Bridge {
  /** Never rejects for an operating fault: it comes as an answer with `ok: false`. */
  readonly request: <N extends PageRequestName>(
    name: N,
    payload: PageRequestOf<N>,
  ) => Promise<Answer<PageReplyOf<N>>>;
  /** Returns what ends the subscription. */
  readonly on: <N extends PageEventName>(name: N, callback: (event: PageEventOf<N>) => void) => () => void;
  readonly platform: 'linux' | 'win32' | 'darwin' | 'other';
}
