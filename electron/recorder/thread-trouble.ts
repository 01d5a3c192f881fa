/** What went wrong in a thread, as data, and as the error that it was. */
import { type ArchiveFaultCode, ArchiveFault, ArchiveRefusal } from '../../core/archive/archive-fault.ts';

export type ThreadTrouble =
  | {
      readonly kind: 'fault';
      readonly code: ArchiveFaultCode;
      readonly sentence: string;
      readonly detail: string | undefined;
    }
  | {
      readonly kind: 'refusal';
      readonly code: string;
      readonly sentence: string;
      readonly field: string | undefined;
    }
  | { readonly kind: 'bug'; readonly sentence: string };

export function troubleOf(error: unknown): ThreadTrouble {
  if (error instanceof ArchiveFault)
    return { kind: 'fault', code: error.code, sentence: error.message, detail: error.detail };
  if (error instanceof ArchiveRefusal)
    return { kind: 'refusal', code: error.code, sentence: error.message, field: error.field };
  return { kind: 'bug', sentence: error instanceof Error ? (error.stack ?? error.message) : String(error) };
}

export function errorOf(trouble: ThreadTrouble): Error {
  switch (trouble.kind) {
    case 'fault':
      return new ArchiveFault(trouble.code, trouble.sentence, trouble.detail);
    case 'refusal':
      return new ArchiveRefusal(trouble.code, trouble.sentence, trouble.field);
    case 'bug':
      return new Error(trouble.sentence);
  }
}
