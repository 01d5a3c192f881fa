/** Everything that crosses between processes, in one list: request and reply by name, events by name. */
import type { z } from 'zod';
import { archiveRequests } from './archive-requests.ts';
import { certificateRequests } from './certificate-requests.ts';
import { evaluationRequests } from './evaluation-requests.ts';
import { events } from './events.ts';
import { instrumentRequests } from './instrument-requests.ts';
import { learnRequests } from './learn-requests.ts';
import { peopleRequests } from './people-requests.ts';
import { photoRequests } from './photo-requests.ts';
import { pullRequests } from './pull-requests.ts';
import { readoutRequests } from './readout-requests.ts';
import { rulePackRequests } from './rule-pack-requests.ts';
import { selfCheckRequests } from './self-check-requests.ts';
import { setRequests } from './set-requests.ts';
import { exchangeRequests } from './exchange-requests.ts';
import { searchRequests } from './search-requests.ts';
import { signatureRequests } from './signature-requests.ts';
import { specimenRequests } from './specimen-requests.ts';
import { typedPullRequests } from './typed-pull-requests.ts';
import { statedDayRequests } from './stated-day-requests.ts';
import { voidRequests } from './void-requests.ts';

export const contract = {
  ...readoutRequests,
  ...learnRequests,
  ...specimenRequests,
  ...pullRequests,
  ...evaluationRequests,
  ...archiveRequests,
  ...searchRequests,
  ...exchangeRequests,
  ...selfCheckRequests,
  ...instrumentRequests,
  ...rulePackRequests,
  ...setRequests,
  ...certificateRequests,
  ...statedDayRequests,
  ...voidRequests,
  ...typedPullRequests,
  ...photoRequests,
  ...peopleRequests,
  ...signatureRequests,
} as const;
export { events };

export type RequestName = keyof typeof contract;
export type RequestOf<N extends RequestName> = z.infer<(typeof contract)[N]['request']>;
/** A request as it may be written, defaults left out. */
export type RequestInputOf<N extends RequestName> = z.input<(typeof contract)[N]['request']>;
export type ReplyOf<N extends RequestName> = z.infer<(typeof contract)[N]['reply']>;
export type EventName = keyof typeof events;
export type EventOf<N extends EventName> = z.infer<(typeof events)[N]>;

/** Asks the recorder and waits for what it answers; throws where it refuses. */
export type Ask = <N extends RequestName>(name: N, payload: RequestInputOf<N>) => Promise<ReplyOf<N>>;

export function isRequestName(name: string): name is RequestName {
  return Object.hasOwn(contract, name);
}
export function isEventName(name: string): name is EventName {
  return Object.hasOwn(events, name);
}

export type { Answer, Fault } from './message.ts';
