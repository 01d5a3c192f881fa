/**
 * Files that a person chose in a dialog, under signs: the page names a sign, and its path is put in here. A request that
 * names anything else reaches no file.
 */
import { basename } from 'node:path';
import type { RequestName } from '../../core/contract/index.ts';
import type { ChosenFile } from '../../core/contract/file-requests.ts';
import type { Answer } from '../../core/contract/message.ts';

const CHOSEN_MAX = 200;

/** The field of a request that names a file or a folder. */
const FIELD: Readonly<Partial<Record<RequestName, string>>> = {
  'readout.learn-file': 'file',
  'archive.preview-import': 'file',
  'archive.import': 'file',
  'archive.search-elsewhere': 'file',
  'archive.read-elsewhere': 'file',
  'archive.merge': 'from',
  'archive.plan-restore': 'backup',
  'archive.restore': 'backup',
  'archive.export-results': 'to',
  'archive.backup-into': 'folder',
  'archive.split': 'folder',
};

export class ChosenFiles {
  readonly #paths = new Map<string, string>();
  #next = 1;

  keep(path: string): ChosenFile {
    const known = [...this.#paths].find(([, its]) => its === path);
    const sign = known?.[0] ?? `chosen:${String(this.#next++)}`;
    this.#paths.set(sign, path);
    for (const oldest of this.#paths.keys()) {
      if (this.#paths.size <= CHOSEN_MAX) break;
      this.#paths.delete(oldest);
    }
    return { sign, name: basename(path) };
  }

  /** The path behind a sign; undefined where nobody chose it. */
  path(sign: string): string | undefined {
    return this.#paths.get(sign);
  }

  /** A checked request with the path in the place of its sign; as it is where it names no file. */
  withPath(name: RequestName, payload: unknown): Answer<unknown> {
    const field = FIELD[name];
    if (field === undefined) return { ok: true, value: payload };
    const its = payload as Readonly<Record<string, unknown>>;
    const path = this.#paths.get(String(its[field]));
    if (path !== undefined) return { ok: true, value: { ...its, [field]: path } };
    return {
      ok: false,
      fault: {
        code: 'path-not-chosen',
        sentence:
          'The program reads and writes only files that were chosen in its own dialog. Nothing was done; choose the file again.',
        field,
      },
    };
  }
}

/** An answer about chosen files with their names only. */
export function withoutFolders(name: RequestName, answer: Answer<unknown>): Answer<unknown> {
  // What another archive answers names no file but what stands in its records, as the own one's answers do.
  if (!answer.ok || FIELD[name] === undefined || name === 'archive.read-elsewhere') return answer;
  return { ok: true, value: namesOf(answer.value) };
}

const PATH_FIELDS: ReadonlySet<string> = new Set(['path', 'setAsideTo']);

/** Answers about files are a few fields deep; lists in them name none. */
function namesOf(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(
    Object.entries(value).map(([field, its]) => [
      field,
      PATH_FIELDS.has(field) && typeof its === 'string' ? basename(its) : namesOf(its),
    ]),
  );
}
