/** The day on which an imported pull was made, as a person states it: beside the record, which keeps the moment of its import. */
import { liesAhead } from '../pull/stated-day.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import { appendAudit } from './audit.ts';
import { checkReason } from './correction-reason.ts';
import { pullRowOf } from './pull-reader.ts';
import { type Connection, insert } from './sql.ts';
import { statedDaysOf } from './stated-day-reader.ts';

export interface StateDay {
  readonly pullId: number;
  /** "2019-05-14" or "2019-05-14T10:30" */
  readonly pulledOn: string;
  readonly by?: string | undefined;
  /** Needed where a day was stated before. */
  readonly reason?: string | undefined;
}

/**
 * Takes the place of what was stated before. Throws an ArchiveRefusal where the pull was not imported (its own clock
 * recorded when it was), the day lies ahead, or a correction has no reason.
 */
export function stateDay(connection: Connection, given: StateDay, wallMs: number): number {
  const { pullId, pulledOn, by, reason } = given;
  refuseAhead(pulledOn, wallMs);
  return connection
    .transaction(() => {
      if (pullRowOf(connection, pullId).source_json.kind !== 'imported')
        throw new ArchiveRefusal(
          'pull-not-imported',
          `Pull ${String(pullId)} was not imported from a file: when it was is on its own record, and no other day is stated beside it.`,
          'pullId',
        );
      const before = statedDaysOf(connection, pullId).at(-1) ?? null;
      if (before !== null) checkReason(reason);
      const statedDayId = insert(connection, 'stated_day', {
        pull_id: pullId,
        pulled_on: pulledOn,
        said_by: by ?? null,
        wall_ms: wallMs,
        supersedes: before?.statedDayId ?? null,
        reason: reason ?? null,
      });
      appendAudit(connection, wallMs, {
        what: before === null ? 'day of a pull stated' : 'day of a pull corrected',
        subject: 'stated_day',
        subjectId: statedDayId,
        detail: {
          pullId,
          pulledOn,
          by: by ?? null,
          before: before?.pulledOn ?? null,
          reason: reason ?? null,
        },
      });
      return statedDayId;
    })
    .immediate();
}

/** Throws an ArchiveRefusal for a day that is not yet anywhere. */
export function refuseAhead(pulledOn: string, wallMs: number): void {
  if (liesAhead(pulledOn, wallMs))
    throw new ArchiveRefusal(
      'day-ahead',
      `The day ${pulledOn} lies ahead; state the day on which it was pulled.`,
      'pulledOn',
    );
}
