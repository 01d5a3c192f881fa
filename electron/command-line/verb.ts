/** What a verb of the command line is. One file a verb in `verbs/`, listed in `main.ts`. */

export const EXIT_DONE = 0;
export const EXIT_JOB_FAILED = 1;
export const EXIT_INPUT_WRONG = 2;
export type ExitCode = typeof EXIT_DONE | typeof EXIT_JOB_FAILED | typeof EXIT_INPUT_WRONG;

/** Where a verb writes. With `--json`, `out` gets one JSON document and nothing else. */
export interface VerbIo {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
}

export interface Verb {
  readonly name: string;
  /** One line for the list of verbs. */
  readonly summary: string;
  /** Full usage text, with every option and an example. */
  readonly usage: string;
  /** The same of each verb that it has of its own, where `usage` only lists them. */
  readonly parts?: Readonly<Record<string, string>>;
  readonly run: (args: readonly string[], io: VerbIo) => Promise<ExitCode>;
}

/** The input is wrong: what, where, what to do, in one sentence. Ends with exit code 2. */
export class InputError extends Error {
  override readonly name = 'InputError';
  readonly code: string;
  readonly field: string | undefined;
  /** What a library or the system said, in one line. */
  readonly detail: string | undefined;

  constructor(code: string, sentence: string, field?: string, detail?: string) {
    super(sentence);
    this.code = code;
    this.field = field;
    this.detail = detail;
  }
}

/** The job was understood and failed (port lost, disk full): ends with exit code 1. */
export class JobError extends Error {
  override readonly name = 'JobError';
  readonly code: string;
  /** What a library or the system said, in one line. */
  readonly detail: string | undefined;

  constructor(code: string, sentence: string, detail?: string) {
    super(sentence);
    this.code = code;
    this.detail = detail;
  }
}
