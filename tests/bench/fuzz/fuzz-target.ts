/** What hostile input reaches, as a function of bytes. */
import type fc from 'fast-check';
import { changedSeed } from './mutations.ts';

export interface FuzzTarget {
  readonly name: string;
  readonly seeds: readonly Buffer[];
  /** How a seed is changed; left out: at random places. */
  readonly changes?: (seeds: readonly Buffer[]) => fc.Arbitrary<Buffer>;
  /** Throws on a bug. */
  readonly run: (bytes: Buffer) => void;
  /** Cases in a long run; smaller where one case opens a file. */
  readonly longRun: number;
  /** Cases in the unit tests, where one takes a millisecond or more. */
  readonly shortRun?: number;
}

export const casesOf = ({ seeds, changes = changedSeed }: FuzzTarget): fc.Arbitrary<Buffer> => changes(seeds);
