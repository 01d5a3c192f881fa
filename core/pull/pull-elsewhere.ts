/**
 * Pulls of other archives beside those of the own one: each archive numbers its pulls from 1, so a pull of another has a
 * number that holds both which archive (from 1, in a list that the caller keeps) and its number there. That of the own
 * archive is the number itself.
 */

/** No archive numbers its pulls so far; products stay exact in a double for two million archives. */
const PULLS_PER_ARCHIVE = 2 ** 32;

export interface PullElsewhere {
  /** 0: the own archive. */
  readonly archive: number;
  readonly pullId: number;
}

export const pullKey = ({ archive, pullId }: PullElsewhere): number => archive * PULLS_PER_ARCHIVE + pullId;

export const pullOfKey = (key: number): PullElsewhere => ({
  archive: Math.floor(key / PULLS_PER_ARCHIVE),
  pullId: key % PULLS_PER_ARCHIVE,
});
