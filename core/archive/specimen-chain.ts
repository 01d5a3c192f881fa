/** The statements of one specimen: it and every correction before and after it. */

/**
 * Begins a query over `chain (specimen_id)`: the specimens that `asked` gives, with their corrections. CROSS JOIN keeps
 * the order of the loops: to sort by number the planner would rather walk through all specimens.
 */
export const withSpecimenChain = (asked: string): string =>
  `WITH RECURSIVE earlier (specimen_id, supersedes) AS (
     SELECT specimen_id, supersedes FROM specimen WHERE specimen_id IN (${asked})
     UNION SELECT s.specimen_id, s.supersedes FROM earlier CROSS JOIN specimen s ON s.specimen_id = earlier.supersedes
   ), chain (specimen_id) AS (
     SELECT specimen_id FROM earlier
     UNION SELECT s.specimen_id FROM chain CROSS JOIN specimen s ON s.supersedes = chain.specimen_id
   )`;

/** Takes a specimen_id and gives the rows of its chain as `s`, the first first. */
export const specimenChain = (columns: string): string =>
  `${withSpecimenChain('?')}
   SELECT ${columns} FROM chain CROSS JOIN specimen s ON s.specimen_id = chain.specimen_id ORDER BY s.specimen_id`;
