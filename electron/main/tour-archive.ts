/**
 * The archive of the tour: a fresh one each time, apart from every other, so that what is pulled there for show never
 * lies among real specimens, and nothing real gets lost with it.
 */
import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { RequestName } from '../../core/contract/index.ts';
import type { Fault } from '../../core/contract/message.ts';

const PREFIX = 'tour-';

/** Makes its folder below `folder`, takes earlier ones away, and gives the archive's path. */
export function freshTourArchive(folder: string): string {
  mkdirSync(folder, { recursive: true });
  for (const name of readdirSync(folder)) {
    if (!name.startsWith(PREFIX)) continue;
    try {
      rmSync(join(folder, name), { recursive: true, force: true });
    } catch {
      // A recorder that is just ending still holds it; the next tour takes it away.
    }
  }
  return join(mkdtempSync(join(folder, PREFIX)), 'tour.gaugemark');
}

/** What would put something real into an archive that is thrown away, or keep what is only for show. */
const NOT_IN_TOUR: ReadonlySet<RequestName> = new Set<RequestName>([
  'pull.type',
  'archive.import',
  'archive.merge',
  'archive.restore',
  'archive.backup',
  'archive.backup-into',
  'archive.split',
  'instrument.save',
  'people.save',
  'set.save',
  'photo.add',
]);

/** The fault of a request that has no place in the tour; null where it has. */
export function notInTour(name: RequestName, payload: unknown): Fault | null {
  const { source } = payload as { source?: { kind: string } };
  if (!NOT_IN_TOUR.has(name) && (source === undefined || source.kind === 'simulated')) return null;
  return IN_TOUR;
}

export const IN_TOUR: Fault = {
  code: 'tour',
  sentence:
    'This is the tour: only the simulated frame is pulled here, and nothing of it is kept. Leave the tour first.',
};
