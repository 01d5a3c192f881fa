/** Days that people stated of a pull. */
import { z } from 'zod';
import type { KeptStatedDay } from '../contract/stated-day-requests.ts';
import { statedDay } from '../pull/stated-day.ts';
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
  .transform((one): KeptStatedDay => ({
    statedDayId: one.stated_day_id,
    pulledOn: one.pulled_on,
    by: one.said_by,
    wallMs: one.wall_ms,
    supersedes: one.supersedes,
    reason: one.reason,
  }));

/** All that were stated of a pull, the one that stands last. */
export const statedDaysOf = (connection: Connection, pullId: number): KeptStatedDay[] =>
  allRows(connection, row, 'SELECT * FROM stated_day WHERE pull_id = ? ORDER BY stated_day_id', pullId);
