/** Days that people stated of a pull. */
import { z } from 'zod';
import { type StatedDay, statedDay } from '../pull/stated-day.ts';
import { type Connection, allRows, sqlInteger } from './sql.ts';

const row = z
  .object({
    stated_day_id: sqlInteger,
    pulled_on: statedDay,
    said_by: z.string().nullable(),
    wall_ms: sqlInteger,
    supersedes: sqlInteger.nullable(),
    reason: z.string().nullable(),
  })
  .transform((one): StatedDay => ({
    statedDayId: one.stated_day_id,
    pulledOn: one.pulled_on,
    by: one.said_by,
    wallMs: one.wall_ms,
    supersedes: one.supersedes,
    reason: one.reason,
  }));

/** In SQL: the day that stands of the pull of a row under this name; null where nobody stated one. */
export const STATED_OF_PULL = (pull: string): string =>
  `(SELECT d.pulled_on FROM stated_day d WHERE d.pull_id = ${pull}.pull_id ORDER BY d.stated_day_id DESC LIMIT 1)`;

/** All that were stated of a pull, the one that stands last. */
export const statedDaysOf = (connection: Connection, pullId: number): StatedDay[] =>
  allRows(connection, row, 'SELECT * FROM stated_day WHERE pull_id = ? ORDER BY stated_day_id', pullId);
