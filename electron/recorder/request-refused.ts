/** A request that can't be done as asked; becomes a fault in the answer. */
import { ArchiveFault, ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import type { Fault } from '../../core/contract/message.ts';
import { TEXT_LENGTH_MAX } from '../../core/limits.ts';
import { SourceFaultError } from '../../drivers/transport.ts';

export class RequestRefused extends Error {
  override readonly name = 'RequestRefused';
  readonly code: string;
  readonly field: string | undefined;

  constructor(code: string, sentence: string, field?: string) {
    super(sentence);
    this.code = code;
    this.field = field;
  }
}

/** The fault that an error means; null where it is a bug. */
export function faultOf(error: unknown): Fault | null {
  const told = (code: string, sentence: string, field?: string): Fault => ({
    code,
    sentence: sentence.slice(0, TEXT_LENGTH_MAX),
    ...(field === undefined ? {} : { field }),
  });
  if (error instanceof RequestRefused || error instanceof ArchiveRefusal)
    return told(error.code, error.message, error.field);
  if (error instanceof ArchiveFault) return told(error.code, error.message);
  if (error instanceof SourceFaultError) return told(error.fault.code, error.fault.sentence);
  return null;
}
