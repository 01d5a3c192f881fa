/** A request that can't be done as asked; becomes a fault in the answer. */
import { ArchiveFault, ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import type { Fault } from '../../core/contract/message.ts';
import { TEXT_LENGTH_MAX } from '../../core/limits.ts';
import { SourceFaultError } from '../../drivers/transport.ts';

export class RequestRefused extends Error {
  override readonly name = 'RequestRefused';
  readonly code: string;
  readonly field: string | undefined;
  readonly detail: string | undefined;

  constructor(code: string, sentence: string, field?: string, detail?: string) {
    super(sentence);
    this.code = code;
    this.field = field;
    this.detail = detail;
  }
}

/** The fault that an error means; null where it is a bug. */
export function faultOf(error: unknown): Fault | null {
  const told = (
    code: string,
    sentence: string,
    { field, detail }: { readonly field?: string | undefined; readonly detail?: string | undefined } = {},
  ): Fault => ({
    code,
    sentence: sentence.slice(0, TEXT_LENGTH_MAX),
    ...(field === undefined ? {} : { field }),
    ...(detail === undefined ? {} : { detail: detail.slice(0, TEXT_LENGTH_MAX) }),
  });
  if (error instanceof RequestRefused) return told(error.code, error.message, error);
  if (error instanceof ArchiveRefusal) return told(error.code, error.message, { field: error.field });
  if (error instanceof ArchiveFault) return told(error.code, error.message, { detail: error.detail });
  if (error instanceof SourceFaultError) return told(error.fault.code, error.fault.sentence);
  return null;
}
