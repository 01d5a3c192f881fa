/** What a split by year would make of the open archive, as it is told; runs in the archive's own thread. */
import { partName, planSplit, sizesOfParts } from '../../core/archive/split-archive.ts';
import { type Connection, countOf } from '../../core/archive/sql.ts';
import type { SplitPlanTold } from '../../core/contract/exchange-requests.ts';

export function toldPlan(connection: Connection, archivePath: string): Omit<SplitPlanTold, 'largeBytes'> {
  const plan = planSplit(connection);
  const sizes = sizesOfParts(connection, plan);
  const copied = countOf(
    connection,
    'SELECT p.page_count * s.page_size AS n FROM pragma_page_count p, pragma_page_size s',
  );
  return {
    parts: plan.parts.map(({ year, pullIds, certificateIds }, i) => ({
      year,
      name: partName(archivePath, year),
      pulls: pullIds.length,
      certificates: certificateIds.length,
      bytes: sizes[i] ?? 0,
    })),
    open: plan.open,
    certificatesLeft: plan.certificatesLeft,
    archiveBytes: copied,
    // The copy, all parts, and the log of the one that is being written, which is as long as that one.
    neededBytes: copied + sizes.reduce((sum, bytes) => sum + bytes, 0) + Math.max(0, ...sizes),
  };
}
