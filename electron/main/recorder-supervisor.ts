/**
 * Keeps a recorder there and a connection to it: looks for one, starts one where none answers, notices by heartbeat
 * when it hangs, starts it again a bounded number of times. It never judges by exit codes, which are unreliable, and
 * it never stops a recorder that answers: the recorder ends by itself when nobody needs it.
 */
import type { EventName, EventOf, RequestName } from '../../core/contract/index.ts';
import type { Answer, Fault } from '../../core/contract/message.ts';
import type { RecorderLink } from '../../core/contract/window-requests.ts';
import { RECORDER_RESTART_WINDOW_MS, RECORDER_RESTARTS_MAX } from '../../core/limits.ts';
import type { ConnectToRecorder, RecorderConnection, StartRecorder } from './recorder-connection.ts';
import { RestartBudget } from './restart-budget.ts';

/** From start to first answer; opening a large archive after a crash takes a few seconds. */
const START_MS_MAX = 30_000;
/** A try costs a fraction of a millisecond; at a start the person waits for it. */
const CONNECT_RETRY_MS = 15;
/** A recorder that dies at once is not started again in the same breath. */
const AFTER_DEATH_MS = 500;
const HEARTBEAT_MS = 2_000;
/** Three heartbeats unanswered, each counted when it was sent: a sleeping computer misses only one. */
const MISSED_HEARTBEATS_MAX = 3;
const HEARTBEAT_ANSWER_MS_MAX = 5_000;

export interface SupervisorDependencies {
  readonly connect: ConnectToRecorder;
  readonly start: StartRecorder;
  /** Ends a recorder that no longer answers, by the process id that it gave when it did. */
  readonly kill: (pid: number) => void;
  readonly nowMs: () => number;
  readonly wait: (ms: number) => Promise<void>;
  readonly onLink: (link: RecorderLink) => void;
  readonly onEvent: <N extends EventName>(name: N, event: EventOf<N>) => void;
  readonly note: (what: string) => void;
}

export class RecorderSupervisor {
  readonly #its: SupervisorDependencies;
  readonly #budget = new RestartBudget({
    max: RECORDER_RESTARTS_MAX,
    windowMs: RECORDER_RESTART_WINDOW_MS,
  });
  #archivePath: string;
  #connection: RecorderConnection | null = null;
  #link: RecorderLink = { state: 'connecting', fault: null, restartCount: 0 };
  /** Grows with every change of archive and with the end, so that an overtaken attempt notices. */
  #round = 0;

  constructor(archivePath: string, dependencies: SupervisorDependencies) {
    this.#archivePath = archivePath;
    this.#its = dependencies;
  }

  get link(): RecorderLink {
    return this.#link;
  }

  /** Begins, or begins again after `failed`. */
  begin(): void {
    this.#budget.refill();
    void this.#establish(++this.#round, { isRestart: false });
  }

  /** Lets go of the present recorder, which ends by itself when it is done, and goes over to another archive. */
  changeArchive(archivePath: string): void {
    this.end();
    this.#archivePath = archivePath;
    this.begin();
  }

  end(): void {
    this.#round++;
    this.#connection?.close();
    this.#connection = null;
  }

  async request(name: RequestName, payload: unknown): Promise<Answer<unknown>> {
    const connection = this.#connection;
    if (connection === null) return { ok: false, fault: this.#link.fault ?? NOT_CONNECTED };
    return connection.request(name, payload);
  }

  async #establish(round: number, { isRestart }: { isRestart: boolean }): Promise<void> {
    this.#setLink({
      state: 'connecting',
      fault: isRestart ? RESTARTING : null,
      restartCount: this.#link.restartCount + (isRestart ? 1 : 0),
    });
    const connection = await this.#connectOrStart(round);
    if (round !== this.#round) {
      connection?.close();
      return;
    }
    if (connection === null) {
      this.#lost(round, 'it was started and does not answer');
      return;
    }
    this.#connection = connection;
    connection.onEvent(this.#its.onEvent);
    connection.onClosed(() => {
      if (this.#connection !== connection) return;
      this.#connection = null;
      this.#lost(round, 'the connection ended');
    });
    this.#setLink({ ...this.#link, state: 'connected', fault: null });
    void this.#watch(round, connection);
  }

  async #connectOrStart(round: number): Promise<RecorderConnection | null> {
    const there = await this.#its.connect(this.#archivePath);
    if (there !== null) return there;
    const its = { hasEnded: false };
    void this.#its.start(this.#archivePath).then(() => {
      its.hasEnded = true;
    });
    const untilMs = this.#its.nowMs() + START_MS_MAX;
    while (round === this.#round && this.#its.nowMs() < untilMs) {
      await this.#its.wait(CONNECT_RETRY_MS);
      // Looked at before connecting: one that ended because another was quicker leaves that other one to be found.
      const { hasEnded } = its;
      const started = await this.#its.connect(this.#archivePath);
      if (started !== null) return started;
      if (hasEnded) {
        await this.#its.wait(AFTER_DEATH_MS);
        return null;
      }
    }
    return null;
  }

  #lost(round: number, why: string): void {
    if (round !== this.#round) return;
    this.#its.note(`recorder lost: ${why}`);
    if (this.#budget.spend(this.#its.nowMs())) {
      void this.#establish(++this.#round, { isRestart: true });
      return;
    }
    this.#setLink({ ...this.#link, state: 'failed', fault: LEFT_ALONE });
  }

  async #watch(round: number, connection: RecorderConnection): Promise<void> {
    let pid: number | null = null;
    let missed = 0;
    while (round === this.#round && this.#connection === connection) {
      const answer = await Promise.race([
        connection.request('program.info', {}),
        this.#its.wait(HEARTBEAT_ANSWER_MS_MAX).then(() => null),
      ]);
      // A fault is no sign of life: the connection gives one when the time is up.
      if (answer?.ok === true) {
        missed = 0;
        pid = (answer.value as { pid: number }).pid;
      } else missed++;
      if (missed >= MISSED_HEARTBEATS_MAX && pid !== null) {
        this.#its.note(`recorder ${pid} does not answer and is ended`);
        this.#its.kill(pid);
        return;
      }
      await this.#its.wait(HEARTBEAT_MS);
    }
  }

  #setLink(link: RecorderLink): void {
    this.#link = link;
    this.#its.onLink(link);
  }
}

const NOT_CONNECTED: Fault = {
  code: 'recorder-not-connected',
  sentence: 'The recorder is being started; what is recorded is safe. Try again in a moment.',
};
const RESTARTING: Fault = {
  code: 'recorder-restarting',
  sentence:
    'The recorder ended and is being started again. What it had saved is safe; an open pull goes on in the same record, with the gap named.',
};
const LEFT_ALONE: Fault = {
  code: 'recorder-failed',
  sentence:
    `The recorder ended ${RECORDER_RESTARTS_MAX + 1} times within a minute and is left alone. What it had saved is safe. ` +
    'See whether the disk is full, unplug the readout, then choose "try again".',
};
