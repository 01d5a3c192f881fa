/**
 * Pulls of other archives among those of the own one: under numbers that hold which archive they are in
 * (core/pull/pull-elsewhere.ts). What is asked about such a pull goes to its archive; what would keep something is refused.
 */
import { signal } from '@preact/signals';
import { READ_ELSEWHERE, type ReadElsewhere } from '../../core/contract/exchange-requests.ts';
import type { ChosenFile } from '../../core/contract/file-requests.ts';
import type { Fault } from '../../core/contract/message.ts';
import { pullKey, pullOfKey } from '../../core/pull/pull-elsewhere.ts';

/** Archives that a pull was looked at in, from number 1; a number stays with its archive as long as the page lives. */
const files = signal<readonly ChosenFile[]>([]);

/** The number of an archive beside the own one, which is 0. */
export function archiveNumber(file: ChosenFile): number {
  const at = files.value.findIndex(({ sign }) => sign === file.sign);
  if (at >= 0) return at + 1;
  files.value = [...files.value, file];
  return files.value.length;
}

export const keyElsewhere = (file: ChosenFile, pullId: number): number =>
  pullKey({ archive: archiveNumber(file), pullId });

/** The archive that a pull is in; null for the own one. */
export function fileOfPull(key: number): ChosenFile | null {
  const { archive } = pullOfKey(key);
  return archive === 0 ? null : (files.value[archive - 1] ?? null);
}

/** Its number there. */
export const numberOfPull = (key: number): number => pullOfKey(key).pullId;

export interface AskedElsewhere {
  readonly file: string;
  readonly name: ReadElsewhere;
  readonly payload: Readonly<Record<string, unknown>>;
}

/** Where a request goes: null to the own archive. */
export function routeOf(
  name: string,
  payload: unknown,
): { readonly ask: AskedElsewhere } | { readonly fault: Fault } | null {
  if (typeof payload !== 'object' || payload === null || !('pullId' in payload)) return null;
  const { pullId: key } = payload;
  if (typeof key !== 'number') return null;
  const file = fileOfPull(key);
  if (file === null) return null;
  const read = READ_ELSEWHERE.find((one) => one === name);
  if (read !== undefined)
    return { ask: { file: file.sign, name: read, payload: { ...payload, pullId: numberOfPull(key) } } };
  return {
    fault: {
      code: 'only-read-elsewhere',
      sentence: `This pull is in ${file.name}, which is only read here, so nothing was done; open that archive to do it there.`,
    },
  };
}
