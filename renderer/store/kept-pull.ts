/** One kept pull with its readings and its evaluation, as it lies in the archive. */
import { type Signal, signal } from '@preact/signals';
import type { Evaluation, EvaluationOptions } from '../../core/results/evaluation.ts';
import type { Bridge } from '../../core/contract/bridge.ts';
import type { Fault } from '../../core/contract/index.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import type { KeptSpecimen } from '../../core/contract/specimen-requests.ts';
import { FollowedPull } from './followed-pull.ts';
import { request } from './session-store.ts';

type SlopeWindow = NonNullable<EvaluationOptions['slopeWindow']>;

export interface OpenedPull {
  readonly pullId: number;
  readonly kept: Signal<KeptPull | null>;
  /** The pull's specimen with its newest correction, which the evaluation rests on. */
  readonly specimen: Signal<KeptSpecimen | null>;
  readonly evaluation: Signal<Evaluation | null>;
  /** Window of the elastic slope set by hand, for the next `refresh`; null where the program looks for it. */
  readonly slopeWindow: Signal<SlopeWindow | null>;
  /** Grows while readings come in. */
  readonly arrived: Signal<number>;
  readonly readings: FollowedPull;
  readonly fault: Signal<Fault | null>;
  /** Asks for facts and evaluation again: a note was added. */
  refresh(): Promise<void>;
  close(): void;
}

/** Readings that somebody else follows already, and what grows when more have come. */
export interface Shared {
  readonly readings: FollowedPull;
  readonly arrived: Signal<number>;
}

/** Opens a pull of the archive, or the one being recorded. Facts, curve and result come in as they are read. */
export function openPull(pullId: number, shared?: Shared): OpenedPull {
  const kept = signal<KeptPull | null>(null);
  const specimen = signal<KeptSpecimen | null>(null);
  const evaluation = signal<Evaluation | null>(null);
  const fault = signal<Fault | null>(null);
  const slopeWindow = signal<SlopeWindow | null>(null);
  const arrived = shared?.arrived ?? signal(0);
  const bridge: Pick<Bridge, 'request'> = { request };
  const readings = shared?.readings ?? new FollowedPull(bridge, pullId, () => arrived.value++);
  const letGo = arrived.subscribe(() => {
    if (readings.fault !== null) fault.value = readings.fault;
  });
  let closed = false;
  let asked = 0;
  let answered = 0;
  const refresh = async (): Promise<void> => {
    const mine = ++asked;
    const [facts, result, newest] = await Promise.all([
      request('pull.get', { pullId }),
      request('pull.evaluate', {
        pullId,
        ...(slopeWindow.value === null ? {} : { options: { slopeWindow: slopeWindow.value } }),
      }),
      request('pull.specimen', { pullId }),
    ]);
    // An older answer that took longer says nothing new.
    if (closed || mine < answered) return;
    answered = mine;
    if (facts.ok) kept.value = facts.value;
    if (newest.ok) specimen.value = newest.value;
    if (result.ok) evaluation.value = result.value;
    fault.value = [facts, result, newest].map((a) => (a.ok ? null : a.fault)).find(Boolean) ?? null;
  };
  if (shared === undefined) {
    void refresh();
    void readings.catchUp();
  }
  return {
    pullId,
    kept,
    specimen,
    evaluation,
    slopeWindow,
    arrived,
    readings,
    fault,
    refresh,
    close: () => {
      closed = true;
      letGo();
      if (shared === undefined) readings.close();
    },
  };
}
