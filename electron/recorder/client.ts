/**
 * The client of a recorder: for the window's main process and the command line. It holds no native module and
 * nothing of the archive, and checks what comes in against the contract.
 */
import { type Socket, connect } from 'node:net';
import {
  type Answer,
  type EventName,
  type EventOf,
  type RequestName,
  type RequestInputOf,
  type ReplyOf,
  contract,
  events,
  isEventName,
} from '../../core/contract/index.ts';
import { fault } from '../../core/contract/message.ts';
import {
  RECORDER_ANSWER_MS_MAX,
  RECORDER_CONNECT_MS_MAX,
  RECORDER_LONG_ANSWER_MS_MAX,
} from '../../core/limits.ts';
import { type Message, MessageReader, encodeMessage } from './message-frame.ts';
import { socketPlace } from './socket-place.ts';

interface Waiting {
  readonly settle: (answer: Answer<unknown>) => void;
  /** Of work on a whole archive; null of what is answered at once. */
  readonly timer: NodeJS.Timeout | null;
}

type EventListener = <N extends EventName>(name: N, event: EventOf<N>) => void;

/** Tries once; null when no recorder answers for this archive. */
export function connectToRecorder(archivePath: string): Promise<RecorderClient | null> {
  return new Promise((settle) => {
    const socket = connect(socketPlace(archivePath).path);
    const timer = setTimeout(() => {
      socket.destroy();
      settle(null);
    }, RECORDER_CONNECT_MS_MAX);
    socket.once('error', () => {
      clearTimeout(timer);
      socket.destroy();
      settle(null);
    });
    socket.once('connect', () => {
      clearTimeout(timer);
      socket.removeAllListeners('error');
      settle(new RecorderClient(socket));
    });
  });
}

/** One connection. It is not made again by itself: whoever holds it is told that it has ended. */
export class RecorderClient {
  readonly #socket: Socket;
  readonly #reader = new MessageReader();
  readonly #waiting = new Map<number, Waiting>();
  readonly #eventListeners = new Set<EventListener>();
  readonly #closedListeners = new Set<() => void>();
  #nextId = 0;
  #closed = false;

  constructor(socket: Socket) {
    this.#socket = socket;
    socket.on('data', (piece: Buffer) => this.#take(piece));
    socket.on('error', () => socket.destroy());
    socket.on('close', () => this.#ended());
  }

  /**
   * Settles always: with an answer, or with a fault when the time is up or the connection ends first. The time of work on a
   * whole archive begins anew whenever the recorder tells how far such work is.
   */
  request<N extends RequestName>(
    name: N,
    payload: RequestInputOf<N>,
    { timeoutMs = answerMsMax(name) }: { readonly timeoutMs?: number } = {},
  ): Promise<Answer<ReplyOf<N>>> {
    return new Promise((settle) => {
      if (this.#closed) {
        settle({ ok: false, fault: CONNECTION_ENDED });
        return;
      }
      const id = this.#nextId++;
      const timer = setTimeout(() => this.#answer(id, { ok: false, fault: noAnswer(name) }), timeoutMs);
      this.#waiting.set(id, {
        timer: LONG.has(name) ? timer : null,
        settle: (answer) => {
          clearTimeout(timer);
          settle(checkedAnswer(name, payload, answer));
        },
      });
      this.#send({ head: { kind: 'request', id, name }, body: payload });
    });
  }

  /** Every event; gives back what ends the listening. */
  onEvent(listener: EventListener): () => void {
    this.#eventListeners.add(listener);
    return () => this.#eventListeners.delete(listener);
  }

  onClosed(listener: () => void): () => void {
    this.#closedListeners.add(listener);
    return () => this.#closedListeners.delete(listener);
  }

  close(): void {
    this.#socket.destroy();
  }

  #take(piece: Buffer): void {
    let messages: Message[];
    try {
      messages = this.#reader.push(piece);
    } catch {
      // Whatever answers there is no recorder of this program: the connection ends, and its holder is told.
      this.#socket.destroy();
      return;
    }
    for (const { head, body } of messages) {
      if (head.kind === 'answer') this.#answer(head.id, body);
      else if (head.kind === 'event') this.#event(head.name, body);
    }
  }

  #answer(id: number, body: unknown): void {
    const waiting = this.#waiting.get(id);
    if (waiting === undefined) return;
    this.#waiting.delete(id);
    waiting.settle(body as Answer<unknown>);
  }

  #event(name: string, body: unknown): void {
    if (name === 'readings') this.#send({ head: { kind: 'taken' }, body: null });
    if (!isEventName(name)) return;
    const checked = events[name].safeParse(body);
    if (!checked.success) return;
    // Work that goes on is waited for, however long the whole of it takes.
    if (name === 'exchange-progress') for (const { timer } of this.#waiting.values()) timer?.refresh();
    for (const listener of this.#eventListeners) listener(name, checked.data as EventOf<typeof name>);
  }

  #send(message: Message): void {
    if (!this.#socket.destroyed) this.#socket.write(encodeMessage(message));
  }

  #ended(): void {
    this.#closed = true;
    for (const id of [...this.#waiting.keys()]) this.#answer(id, { ok: false, fault: CONNECTION_ENDED });
    for (const listener of this.#closedListeners) listener();
  }
}

/** Data are data only after the check: an answer that isn't of the contract's form becomes a fault. */
function checkedAnswer<N extends RequestName>(
  name: N,
  payload: unknown,
  answer: unknown,
): Answer<ReplyOf<N>> {
  if (typeof answer === 'object' && answer !== null && 'ok' in answer) {
    if (answer.ok === true && 'value' in answer) {
      const value = contract[name].reply.safeParse(answer.value);
      // An answer may well be null: nobody has named the laboratory yet.
      const whole = value.success ? checkedWithin(name, payload, value.data) : null;
      if (whole !== null) return { ok: true, value: whole.reply as ReplyOf<N> };
    } else if (answer.ok === false && 'fault' in answer) {
      const told = fault.safeParse(answer.fault);
      if (told.success) return { ok: false, fault: told.data };
    }
  }
  return {
    ok: false,
    fault: {
      code: 'answer-malformed',
      sentence: `The recorder answered "${name}" in a form that this version does not know; window and recorder may be of different versions: close both and start again.`,
    },
  };
}

/** What another archive answers must be of the form of what it was asked; null where it is not. */
function checkedWithin(
  name: RequestName,
  payload: unknown,
  reply: unknown,
): { readonly reply: unknown } | null {
  if (name !== 'archive.read-elsewhere') return { reply };
  const asked = contract['archive.read-elsewhere'].request.safeParse(payload);
  const given = contract['archive.read-elsewhere'].reply.safeParse(reply);
  if (!asked.success || !given.success) return null;
  const value = contract[asked.data.name].reply.safeParse(given.data.value);
  return value.success ? { reply: { value: value.data } } : null;
}

const CONNECTION_ENDED = {
  code: 'recorder-gone',
  sentence: 'The connection to the recorder has ended; what it had recorded is safe. Try again in a moment.',
};

const noAnswer = (name: string): { code: string; sentence: string } => ({
  code: 'recorder-silent',
  sentence: `The recorder has not answered "${name}" in time; what it had recorded is safe. Try again in a moment.`,
});

/** Over a whole archive, or a set of many long curves, these take from seconds to hours. */
const LONG: ReadonlySet<RequestName> = new Set<RequestName>([
  'archive.check',
  'archive.backup',
  'archive.backup-into',
  'archive.export',
  'archive.import',
  'archive.merge',
  'archive.export-results',
  'archive.results-table',
  'evaluation.judge-set',
  'archive.search-elsewhere',
  'archive.plan-restore',
  'archive.restore',
]);

/** These may end a record, which is packed anew as a whole then: a day of a fast readout takes minutes. */
const MAY_END_A_RECORD: ReadonlySet<RequestName> = new Set<RequestName>([
  'pull.close',
  'pull.put-away',
  'pull.ready',
  'readout.open',
  'readout.close',
]);

const answerMsMax = (name: RequestName): number =>
  LONG.has(name) || MAY_END_A_RECORD.has(name) ? RECORDER_LONG_ANSWER_MS_MAX : RECORDER_ANSWER_MS_MAX;
