/**
 * The recorder's local socket. Each client is answered in turn; readings go out at most VIEW_BATCHES_PER_S_MAX times a
 * second, one batch in flight a client: who is slow gets fewer and larger batches, and is told what was missed.
 */
import { chmodSync, lstatSync, mkdirSync, rmSync } from 'node:fs';
import { type Server, type Socket, createServer } from 'node:net';
import { userInfo } from 'node:os';
import { type EventName, type EventOf, isRequestName } from '../../core/contract/index.ts';
import type { Fault } from '../../core/contract/message.ts';
import { MESSAGE_BYTES_MAX, READINGS_PER_REPLY_MAX, VIEW_BATCHES_PER_S_MAX } from '../../core/limits.ts';
import { columnsOf } from '../../core/pull/reading-columns.ts';
import { connectToRecorder } from './client.ts';
import { type Message, MessageReader, encodeMessage } from './message-frame.ts';
import { programFault } from './request-faults.ts';
import { answerRequest } from './requests.ts';
import type { Recorder } from './recorder.ts';
import { type SocketPlace, socketPlace } from './socket-place.ts';

/** A client that has not taken this much is slow: it gets no further snapshots until it has. */
const UNSENT_BYTES_MAX = 4 * 1_048_576;
/** One that takes nothing at all for so long is let go. */
const UNSENT_BYTES_LIMIT = 128 * 1_048_576;
/** The window and a few commands; more would take file handles from the archive and its ports. */
const CLIENTS_MAX = 64;
const VIEW_INTERVAL_MS = Math.ceil(1000 / VIEW_BATCHES_PER_S_MAX);

/** Another recorder answers at this place. */
export class AlreadyServedError extends Error {
  override readonly name = 'AlreadyServedError';
}

export class RecorderServer {
  readonly #recorder: Recorder;
  readonly #clients = new Set<Client>();
  readonly #server: Server;
  readonly #onClientCount: (count: number) => void;
  #viewTimer: NodeJS.Timeout | null = null;
  #viewedMs = -Infinity;

  constructor(recorder: Recorder, { onClientCount }: { readonly onClientCount: (count: number) => void }) {
    this.#recorder = recorder;
    this.#onClientCount = onClientCount;
    this.#server = createServer((socket) => this.#accept(socket));
    this.#server.maxConnections = CLIENTS_MAX;
    recorder.listen({
      onEvent: (name, event) => {
        for (const client of this.#clients) client.event(name, event);
      },
      onReadings: () => this.#viewSoon(),
      isHeard: () => this.#clients.size > 0,
    });
  }

  /** Listens. Throws an AlreadyServedError where another recorder answers for this archive. */
  async listen(archivePath: string): Promise<void> {
    const place = socketPlace(archivePath);
    await makeRoom(place, archivePath);
    await new Promise<void>((done, fail) => {
      this.#server.once('error', fail);
      // From its first moment nobody else can reach it: a socket is made with what the mask leaves.
      const mask = place.folder === null ? null : process.umask(0o177);
      this.#server.listen(place.path, done);
      if (mask !== null) process.umask(mask);
    });
    // A client that can't be let in (no file handle left) tries again; a record that is open has nothing to do with it.
    this.#server.on('error', (error) => this.#recorder.bug(error));
  }

  get clientCount(): number {
    return this.#clients.size;
  }

  async close(): Promise<void> {
    for (const client of this.#clients) client.end();
    await new Promise<void>((done) => this.#server.close(() => done()));
  }

  #accept(socket: Socket): void {
    const client: Client = new Client(socket, this.#recorder, {
      onGone: () => {
        this.#clients.delete(client);
        this.#onClientCount(this.#clients.size);
      },
      // What has gathered meanwhile takes its turn too, or a quick client would get a batch a line.
      onTaken: () => this.#viewSoon(),
    });
    this.#clients.add(client);
    this.#onClientCount(this.#clients.size);
  }

  /** What comes after a pause goes out at once; only what follows closely waits for its turn. */
  #viewSoon(): void {
    if (this.#viewTimer !== null || this.#clients.size === 0) return;
    const waitMs = this.#viewedMs + VIEW_INTERVAL_MS - performance.now();
    this.#viewTimer = setTimeout(
      () => {
        this.#viewTimer = null;
        this.#viewedMs = performance.now();
        for (const client of this.#clients) client.sendReadings();
      },
      Math.max(0, waitMs),
    );
  }
}

interface ClientListener {
  readonly onGone: () => void;
  /** The batch under way has been taken. */
  readonly onTaken: () => void;
}

class Client {
  readonly #socket: Socket;
  readonly #recorder: Recorder;
  readonly #reader = new MessageReader();
  readonly #onTaken: () => void;
  #pullId: number | null = null;
  #nextSeq = 0;
  #inFlight = false;

  constructor(socket: Socket, recorder: Recorder, { onGone, onTaken }: ClientListener) {
    this.#socket = socket;
    this.#recorder = recorder;
    this.#onTaken = onTaken;
    socket.on('data', (piece: Buffer) => this.#take(piece));
    socket.on('error', () => socket.destroy());
    socket.on('close', onGone);
    const view = recorder.view;
    if (view !== null) {
      this.#pullId = view.pullId;
      this.#nextSeq = view.buffer.nextSeq;
    }
  }

  end(): void {
    this.#socket.destroy();
  }

  event<N extends EventName>(name: N, event: EventOf<N>): void {
    // Snapshots and previews stand by themselves: a slow client misses some and gets the next.
    if (name !== 'notice' && this.#socket.writableLength > UNSENT_BYTES_MAX) return;
    this.#send({ head: { kind: 'event', name }, body: event });
  }

  /** What is new since the last batch, unless that one has not been taken yet. */
  sendReadings(): void {
    const view = this.#recorder.view;
    if (this.#inFlight || view === null || this.#socket.writableLength > UNSENT_BYTES_MAX) return;
    if (this.#pullId !== view.pullId) {
      this.#pullId = view.pullId;
      this.#nextSeq = 0;
    }
    const { firstSeq, readings } = view.buffer.from(this.#nextSeq);
    if (readings.length === 0) return;
    const missedFromSeq = firstSeq > this.#nextSeq ? this.#nextSeq : null;
    const sent = readings.slice(0, READINGS_PER_REPLY_MAX);
    this.#nextSeq = firstSeq + sent.length;
    this.#inFlight = true;
    this.event('readings', {
      pullId: view.pullId,
      basis: this.#recorder.basis,
      missedFromSeq,
      columns: columnsOf(sent, view.converters, { firstSeq, shown: false }),
    });
  }

  #take(piece: Buffer): void {
    let messages: Message[];
    try {
      messages = this.#reader.push(piece);
    } catch {
      // Whatever speaks here is no client of this program.
      this.#socket.destroy();
      return;
    }
    for (const { head, body } of messages) {
      if (head.kind === 'taken') {
        this.#inFlight = false;
        this.#onTaken();
      } else if (head.kind === 'request') void this.#answer(head.id, head.name, body);
    }
  }

  async #answer(id: number, name: string, body: unknown): Promise<void> {
    const answer = isRequestName(name)
      ? await answerRequest(this.#recorder, name, body)
      : {
          ok: false,
          fault: {
            code: 'request-unknown',
            sentence: `This recorder has no request "${name}"; window and recorder may be of different versions.`,
          },
        };
    const head = { kind: 'answer', id } as const;
    this.#send({ head, body: answer }, (error) => ({
      head,
      body: { ok: false, fault: error instanceof RangeError ? tooLong(name) : programFault(name, error) },
    }));
  }

  /** What can't be put into a message must not end the recorder and the record that is open: `instead` goes, or nothing. */
  #send(message: Message, instead: (error: unknown) => Message | null = () => null): void {
    if (this.#socket.destroyed) return;
    if (this.#socket.writableLength > UNSENT_BYTES_LIMIT) {
      this.#socket.destroy();
      return;
    }
    try {
      this.#socket.write(encodeMessage(message));
    } catch (error) {
      this.#recorder.bug(error);
      const other = instead(error);
      if (other !== null) this.#socket.write(encodeMessage(other));
    }
  }
}

const tooLong = (name: string): Fault => ({
  code: 'answer-too-long',
  sentence: `The answer to "${name}" is longer than the ${String(MESSAGE_BYTES_MAX / 1_048_576)} MiB that a message may have; ask for less at once. What is recorded is safe.`,
});

/** Makes the socket's folder for this person alone, and removes a socket that nobody answers at any more. */
async function makeRoom(place: SocketPlace, archivePath: string): Promise<void> {
  const there = await connectToRecorder(archivePath);
  if (there !== null) {
    there.close();
    throw new AlreadyServedError('another recorder answers for this archive');
  }
  if (place.folder === null) return;
  mkdirSync(place.folder, { recursive: true, mode: 0o700 });
  const facts = lstatSync(place.folder);
  if (!facts.isDirectory() || facts.uid !== userInfo().uid)
    throw new Error(`the folder ${place.folder} belongs to somebody else`);
  chmodSync(place.folder, 0o700);
  rmSync(place.path, { force: true });
}
