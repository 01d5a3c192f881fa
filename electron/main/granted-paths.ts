/**
 * Paths that a person chose in a dialog. A page may name a file to write or to read only if it is one of them, so that
 * a page turned against the program reaches no file that nobody pointed at.
 */
import type { RequestName } from '../../core/contract/index.ts';
import type { Fault } from '../../core/contract/message.ts';

const GRANTED_MAX = 200;

export class GrantedPaths {
  readonly #paths = new Set<string>();

  grant(path: string): void {
    this.#paths.add(path);
    for (const oldest of this.#paths) {
      if (this.#paths.size <= GRANTED_MAX) break;
      this.#paths.delete(oldest);
    }
  }

  /** The fault of a checked request that names a file nobody chose; null where there is none. */
  faultOf(name: RequestName, payload: unknown): Fault | null {
    const field = fieldWithPath(name, payload);
    if (field === null || this.#paths.has(field.path)) return null;
    return {
      code: 'path-not-chosen',
      sentence:
        'The program reads and writes only files that were chosen in its own dialog. Nothing was done.',
      field: field.field,
    };
  }
}

function fieldWithPath(name: RequestName, payload: unknown): { field: string; path: string } | null {
  const its = payload as { to?: string; source?: { kind: string; file?: string } };
  if ((name === 'archive.backup' || name === 'archive.export') && its.to !== undefined)
    return { field: 'to', path: its.to };
  if (its.source?.kind === 'replay' && its.source.file !== undefined)
    return { field: 'source.file', path: its.source.file };
  return null;
}
