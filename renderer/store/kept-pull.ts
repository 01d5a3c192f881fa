/** One kept pull with its readings and its evaluation, as it lies in the archive. */
import { type Signal, signal } from '@preact/signals';
import type { Evaluation } from '../../core/results/evaluation.ts';
import type { Bridge } from '../../core/contract/bridge.ts';
import type { Fault } from '../../core/contract/index.ts';
import type { KeptEvaluation } from '../../core/contract/evaluation-requests.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import type { KeptSpecimen } from '../../core/contract/specimen-requests.ts';
import { FollowedPull } from './followed-pull.ts';
import { type OutlinedPull, outlinedPull } from './pull-outline.ts';
import { request } from './session-store.ts';

export interface OpenedPull {
  readonly pullId: number;
  readonly kept: Signal<KeptPull | null>;
  /** The pull's specimen with its newest correction, which the evaluation rests on. */
  readonly specimen: Signal<KeptSpecimen | null>;
  /** By the options of the last kept evaluation, or as recorded where there is none. */
  readonly evaluation: Signal<Evaluation | null>;
  /** Evaluations that were kept, oldest first; the last one stands. */
  readonly history: Signal<readonly KeptEvaluation[] | null>;
  /** Grows while readings come in. */
  readonly arrived: Signal<number>;
  readonly readings: FollowedPull;
  /** Of a long pull, drawn until all its readings are there; null otherwise. */
  readonly outline: Signal<OutlinedPull | null>;
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
  const history = signal<readonly KeptEvaluation[] | null>(null);
  const outline = signal<OutlinedPull | null>(null);
  const arrived = shared?.arrived ?? signal(0);
  const bridge: Pick<Bridge, 'request'> = { request };
  const readings = shared?.readings ?? new FollowedPull(bridge, pullId, () => arrived.value++);
  const letGo = arrived.subscribe(() => {
    if (readings.fault !== null) fault.value = readings.fault;
  });
  const letFile = kept.subscribe((facts) => {
    if (facts?.readings?.startsWith('imported') === true) readings.countByFile();
  });
  let closed = false;
  let asked = 0;
  let answered = 0;
  const refresh = async (): Promise<void> => {
    const mine = ++asked;
    const [facts, result, newest, kepts] = await Promise.all([
      request('pull.get', { pullId }).then((facts) => {
        // The curve is drawn as soon as it comes; a long one is evaluated meanwhile.
        if (kept.value === null && facts.ok && !closed) kept.value = facts.value;
        return facts;
      }),
      request('pull.evaluate', { pullId }),
      request('pull.specimen', { pullId }),
      request('evaluation.history', { pullId }),
    ]);
    // An older answer that took longer says nothing new.
    if (closed || mine < answered) return;
    answered = mine;
    if (facts.ok) kept.value = facts.value;
    if (newest.ok) specimen.value = newest.value;
    if (result.ok) evaluation.value = result.value;
    if (kepts.ok) history.value = kepts.value.evaluations;
    fault.value = [facts, result, newest, kepts].map((a) => (a.ok ? null : a.fault)).find(Boolean) ?? null;
  };
  /** Asked for before everything that takes longer: facts and outline are the first picture of a long pull. */
  const askFirstPicture = async (): Promise<void> => {
    const [facts, outlined] = await Promise.all([
      request('pull.get', { pullId }),
      request('pull.outline', { pullId }),
    ]);
    if (closed) return;
    if (kept.value === null && facts.ok) kept.value = facts.value;
    if (outlined.ok && outlined.value.outline !== null) outline.value = outlinedPull(outlined.value.outline);
  };
  if (shared === undefined) {
    void askFirstPicture();
    void readings.catchUp();
    void refresh();
  }
  return {
    pullId,
    kept,
    specimen,
    evaluation,
    history,
    arrived,
    readings,
    outline,
    fault,
    refresh,
    close: () => {
      closed = true;
      letGo();
      letFile();
      if (shared === undefined) readings.close();
    },
  };
}
