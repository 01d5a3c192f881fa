/**
 * What a person does next at the pull, one thing in each state: a control that is marked, a way on to another station, or
 * nothing but the pull itself, which the line of its state says then.
 */
import { session } from '../../store/session-store.ts';
import { stationOnCall } from '../known.ts';
import type { PullAct } from './pull-acts.ts';

export type NextOfPull =
  | { readonly kind: 'act'; readonly act: PullAct }
  /** It starts, breaks or closes by itself. */
  | { readonly kind: 'itself' }
  | { readonly kind: 'way' };

const act = (which: PullAct): NextOfPull => ({ kind: 'act', act: which });
const ITSELF: NextOfPull = { kind: 'itself' };
const WAY: NextOfPull = { kind: 'way' };

export function nextOfPull(): NextOfPull {
  const now = session.value;
  const pull = now?.pull ?? null;
  if (now === null || stationOnCall() !== 'pull') return WAY;
  if (now.state === 'listening' || pull === null) return act('ready');
  switch (now.state) {
    case 'ready':
      return pull.trigger.kind === 'by-hand' ? act('start') : ITSELF;
    case 'pulling':
      return pull.breakRule.kind === 'by-hand' ? act('markBreak') : ITSELF;
    case 'broken':
      if (pull.loadIsBack) return act('goOn');
      return isByHand(pull) ? act('close') : ITSELF;
    case 'stopped':
      return isByHand(pull) || pull.heldOpenS === null ? act('close') : ITSELF;
    case 'closed':
    case 'ended':
      return WAY;
  }
}

/** Nothing tells when what follows the break is over but a person, who closes the record. */
const isByHand = ({
  tailS,
  closesInS,
}: {
  readonly tailS: number | null;
  readonly closesInS: number | null;
}): boolean => tailS === null || closesInS === null;
