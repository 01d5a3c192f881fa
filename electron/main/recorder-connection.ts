/** What the supervisor needs of a connection to the recorder; `electron/recorder/client.ts` gives it. */
import type { EventName, EventOf, RequestName } from '../../core/contract/index.ts';
import type { Answer } from '../../core/contract/message.ts';

export interface RecorderConnection {
  /** Settles always: with an answer, or with a fault when the connection ends first. */
  readonly request: (name: RequestName, payload: unknown) => Promise<Answer<unknown>>;
  readonly onEvent: (listener: <N extends EventName>(name: N, event: EventOf<N>) => void) => void;
  readonly onClosed: (listener: () => void) => void;
  readonly close: () => void;
}

/** Tries once; null when no recorder answers for this archive. */
export type ConnectToRecorder = (archivePath: string) => Promise<RecorderConnection | null>;
/** Starts a recorder that outlives us. The promise settles when it has ended, which may be never. */
export type StartRecorder = (archivePath: string) => Promise<void>;
