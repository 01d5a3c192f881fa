/** Which pull stands for a specimen in its set. */
import { z } from 'zod';
import { withSpecimenChain } from './specimen-chain.ts';
import { type Connection, oneRow, sqlInteger } from './sql.ts';

const standing = z
  .object({ pull_id: sqlInteger, specimen: z.string(), set_name: z.string() })
  .transform((row) => ({ pullId: row.pull_id, specimen: row.specimen, setName: row.set_name }));

/** The newest pull that counts of the specimen or any correction of it, where it is a member of a set; null otherwise. */
export const pullInSet = (connection: Connection, specimenId: number): z.infer<typeof standing> | null =>
  oneRow(
    connection,
    standing,
    `${withSpecimenChain('?')}
     SELECT pull.pull_id, s.name AS specimen,
       (SELECT t.name FROM set_statement t WHERE t.set_id = m.set_id ORDER BY t.set_statement_id DESC LIMIT 1) AS set_name
     FROM chain joined CROSS JOIN set_member m ON m.specimen_id = joined.specimen_id
     CROSS JOIN chain CROSS JOIN pull ON pull.specimen_id = chain.specimen_id
     JOIN specimen s ON s.specimen_id = pull.specimen_id
     WHERE m.set_member_id NOT IN (SELECT set_member_id FROM set_member_void)
       AND pull.pull_id NOT IN (SELECT pull_id FROM pull_void)
     ORDER BY pull.pull_id DESC LIMIT 1`,
    specimenId,
  );
