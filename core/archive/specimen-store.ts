/** Specimens: kept once, never changed. A correction is a new row that names the one it supersedes, and why. */
import type { SpecimenFile } from '../specimen/specimen-file.ts';
import { readSpecimen } from '../specimen/read-specimen.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import { checkReason } from './correction-reason.ts';
import { appendAudit } from './audit.ts';
import { getSpecimen } from './specimen-reader.ts';
import { type Connection, insert } from './sql.ts';

export interface SaveSpecimen {
  readonly specimen: SpecimenFile;
  readonly supersedes?: number | undefined;
  readonly reason?: string | undefined;
  readonly by?: string | undefined;
}

/** Throws an ArchiveRefusal that names the field where a measurement can't be read or a correction lacks its reason. */
export function saveSpecimen(
  connection: Connection,
  save: SaveSpecimen,
  { wallMs, programVersion }: { readonly wallMs: number; readonly programVersion: string },
): number {
  const read = readSpecimen(save.specimen);
  if (!read.ok) {
    const first = read.faults[0];
    throw new ArchiveRefusal(
      'specimen-wrong',
      read.faults.map((f) => f.sentence).join(' '),
      first === undefined ? 'specimen' : `specimen.${first.field}`,
    );
  }
  return connection
    .transaction(() => {
      if (save.supersedes !== undefined) checkCorrection(connection, save.supersedes, save.reason);
      const specimenId = insert(connection, 'specimen', {
        name: save.specimen.id,
        form_json: JSON.stringify(save.specimen),
        saved_wall_ms: wallMs,
        saved_by: save.by ?? null,
        supersedes: save.supersedes ?? null,
        reason: save.reason ?? null,
        program_version: programVersion,
      });
      for (const { field, place, text } of measurementsOf(save.specimen))
        insert(connection, 'measurement', { specimen_id: specimenId, field, place, text });
      appendAudit(connection, wallMs, {
        what: save.supersedes === undefined ? 'specimen kept' : 'specimen corrected',
        subject: 'specimen',
        subjectId: specimenId,
        detail: {
          specimen: save.specimen,
          supersedes: save.supersedes ?? null,
          reason: save.reason ?? null,
          by: save.by ?? null,
        },
      });
      return specimenId;
    })
    .immediate();
}

function checkCorrection(connection: Connection, supersedes: number, reason: string | undefined): void {
  const old = getSpecimen(connection, supersedes);
  checkReason(reason);
  if (old.supersededBy !== null)
    throw new ArchiveRefusal(
      'already-superseded',
      `Specimen ${supersedes} has been corrected already, by ${old.supersededBy}; correct that one.`,
      'supersedes',
    );
}

/** Each measured text with its field's path and its place among repeated ones. */
export function measurementsOf(
  specimen: SpecimenFile,
): { readonly field: string; readonly place: number; readonly text: string }[] {
  const found: { field: string; place: number; text: string }[] = [];
  const take = (field: string, value: unknown): void => {
    const list: unknown[] = Array.isArray(value) ? value : [value];
    list.forEach((text, place) => {
      if (typeof text === 'string') found.push({ field, place, text });
    });
  };
  for (const [name, value] of Object.entries(specimen.geometry))
    if (name !== 'kind') take(`geometry.${name}`, value);
  for (const [name, value] of Object.entries(specimen))
    if (name !== 'id' && name !== 'notes') take(name, value);
  return found;
}
