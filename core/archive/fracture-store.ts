/** Notes on the fracture: as seen, by whom; a correction names the note that it supersedes, and why. */
import type { FractureNote } from '../contract/record.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import { checkReason } from './correction-reason.ts';
import { appendAudit } from './audit.ts';
import { fractureNotesOf, pullRowOf } from './pull-reader.ts';
import { type Connection, insert } from './sql.ts';

export interface NoteFracture {
  readonly pullId: number;
  readonly note: FractureNote;
  readonly by?: string | undefined;
  readonly supersedes?: number | undefined;
  readonly reason?: string | undefined;
}

/** Throws an ArchiveRefusal where the pull is unknown, or a second note doesn't say what it corrects and why. */
export function noteFracture(connection: Connection, request: NoteFracture, wallMs: number): number {
  const { pullId, note, by, supersedes, reason } = request;
  return connection
    .transaction(() => {
      pullRowOf(connection, pullId);
      checkOrder(connection, request);
      const fractureNoteId = insert(connection, 'fracture_note', {
        pull_id: pullId,
        note_json: JSON.stringify(note),
        noted_by: by ?? null,
        wall_ms: wallMs,
        supersedes: supersedes ?? null,
        reason: reason ?? null,
      });
      appendAudit(connection, wallMs, {
        what: supersedes === undefined ? 'fracture noted' : 'fracture note corrected',
        subject: 'fracture_note',
        subjectId: fractureNoteId,
        detail: { pullId, note, by: by ?? null, supersedes: supersedes ?? null, reason: reason ?? null },
      });
      return fractureNoteId;
    })
    .immediate();
}

function checkOrder(connection: Connection, { pullId, supersedes, reason }: NoteFracture): void {
  const newest = fractureNotesOf(connection, pullId).at(-1);
  if (newest === undefined && supersedes === undefined) return;
  if (newest === undefined || supersedes !== newest.fractureNoteId)
    throw new ArchiveRefusal(
      'not-the-newest-note',
      newest === undefined
        ? `Pull ${pullId} has no fracture note yet, so there is nothing to correct.`
        : `Pull ${pullId} has a fracture note already (${newest.fractureNoteId}); a correction must name it as the one that it supersedes.`,
      'supersedes',
    );
  checkReason(reason);
}
