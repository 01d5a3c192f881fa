/** A file of readings becomes a pull of the archive; runs in the archive's own thread. */
import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs';
import type { Archive } from '../../core/archive/archive.ts';
import { ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import { pullInSet } from '../../core/archive/pull-in-set.ts';
import type { Connection } from '../../core/archive/sql.ts';
import { type ImportedPull, importPull } from '../../core/archive/import-store.ts';
import { type SettledPlan, settlePlan } from '../../core/exchange/import/import-bytes.ts';
import { datesNotTaken } from '../../core/exchange/import/dates-in-head.ts';
import { IMPORT_HEAD_BYTES } from '../../core/exchange/import/head-lines.ts';
import type { ImportFault } from '../../core/exchange/import/import-fault.ts';
import { importProposal } from '../../core/exchange/import/proposal-message.ts';
import { type ImportChoices, proposeImport } from '../../core/exchange/import/propose-import.ts';
import type { ReplyOf } from '../../core/contract/index.ts';
import { basename } from 'node:path';
import { saveSpecimen } from '../../core/archive/specimen-store.ts';
import type { SpecimenFile } from '../../core/specimen/specimen-file.ts';
import { monotonicUs } from '../../drivers/transport.ts';
import { bootName } from './boot.ts';
import { type LongWork, UNWATCHED } from './long-work.ts';
import { utcOffsetMinutes } from './utc-offset.ts';

/** Kept whole in memory while its rows are read, and whole in the archive afterwards. */
export const IMPORTED_FILE_BYTES_MAX = 256 * 1_048_576;

export interface ImportFile {
  readonly file: string;
  /** One that is kept, by its number, or one to be kept with the pull. */
  readonly specimen: number | SpecimenFile;
  readonly choices?: ImportChoices | undefined;
  readonly operator?: string | undefined;
  /** The day on which it was made, as stated by whoever imports it. */
  readonly pulledOn?: string | undefined;
}

/** Throws an ArchiveRefusal in one sentence; nothing is kept then. */
export function importFile(
  archive: Archive,
  { file, specimen, choices, operator, pulledOn }: ImportFile,
  work: LongWork = UNWATCHED,
): ImportedPull & { notes: string[] } {
  const { bytes } = fileBytes(file);
  const { plan, doubts, dates } = settled(file, bytes, choices);
  const startedWallMs = Date.now();
  const imported = archive.sets((connection, { programVersion }) =>
    connection
      .transaction(() => {
        const by = operator === undefined ? {} : { by: operator };
        if (typeof specimen === 'number') refuseSecondOfSet(connection, specimen);
        const specimenId =
          typeof specimen === 'number'
            ? specimen
            : saveSpecimen(connection, { specimen, ...by }, { wallMs: startedWallMs, programVersion });
        return importPull(
          { connection, programVersion },
          {
            file,
            bytes,
            plan,
            specimenId,
            operator: operator ?? null,
            pulledOn,
            startedWallMs,
            startedUtcOffsetMinutes: utcOffsetMinutes(startedWallMs),
            startedMonotonicUs: monotonicUs(),
            boot: bootName(),
            onShare: (share) => {
              work.step('import', Math.round(share * bytes.length), bytes.length);
            },
          },
        );
      })
      .immediate(),
  );
  const notTaken = pulledOn === undefined ? datesNotTaken(dates) : null;
  const notes = [...doubts, ...imported.report.notes, ...(notTaken === null ? [] : [notTaken])];
  return { ...imported, notes };
}

/** The newest pull of a member counts: an imported one would change in silence what a set was judged by. */
function refuseSecondOfSet(connection: Connection, specimenId: number): void {
  const there = pullInSet(connection, specimenId);
  if (there !== null)
    throw new ArchiveRefusal(
      'specimen-pulled-already',
      `${there.specimen} was pulled already: pull ${String(there.pullId)} counts in the set “${there.setName}”; make that pull void first, with its reason, or keep a specimen of its own for this file.`,
      'specimen',
    );
}

function settled(
  file: string,
  bytes: Uint8Array,
  choices: ImportChoices = {},
): Extract<SettledPlan, { ok: true }> {
  const head = bytes.subarray(0, IMPORT_HEAD_BYTES);
  const plan = settlePlan(head, head.length === bytes.length, choices);
  if (plan.ok) return plan;
  throw refusedImport(file, plan.fault);
}

const refusedImport = (file: string, { code, sentence }: ImportFault): ArchiveRefusal =>
  new ArchiveRefusal(code, `${basename(file)}: ${sentence}`, code.includes('columns') ? 'columns' : 'file');

/** How a file would be read; only its head is looked at. Throws an ArchiveRefusal in one sentence. */
export function previewImport(file: string, choices: ImportChoices): ReplyOf<'archive.preview-import'> {
  const { bytes: head, byteCount } = fileBytes(file, IMPORT_HEAD_BYTES);
  const proposed = proposeImport(head, head.length === byteCount, choices);
  if (!proposed.ok) throw refusedImport(file, proposed.fault);
  return { proposal: importProposal.parse(proposed.proposal), byteCount };
}

/** How the file of an imported pull would be read; only its head is looked at. Throws an ArchiveRefusal in one sentence. */
export function previewPlan(
  archive: Archive,
  pullId: number,
  choices: ImportChoices,
): ReplyOf<'pull.preview-plan'> {
  const { source } = archive.getPull(pullId);
  if (source.kind !== 'imported')
    throw new ArchiveRefusal(
      'import-plan-without-effect',
      `Pull ${String(pullId)} was not imported from a file, so no plan for a file can read it; choose another readout profile for its lines.`,
      'pullId',
    );
  const { head, byteCount } = headOf(archive, pullId);
  const proposed = proposeImport(head, head.length === byteCount, choices);
  if (!proposed.ok) throw refusedImport(source.file, proposed.fault);
  return { proposal: importProposal.parse(proposed.proposal), byteCount, plan: source.plan };
}

function headOf(archive: Archive, pullId: number): { head: Uint8Array; byteCount: number } {
  const parts: Uint8Array[] = [];
  let held = 0;
  let byteCount = 0;
  for (const { bytes } of archive.rawChunks(pullId)) {
    if (held < IMPORT_HEAD_BYTES) parts.push(bytes);
    held += bytes.length;
    byteCount += bytes.length;
  }
  return { head: Buffer.concat(parts).subarray(0, IMPORT_HEAD_BYTES), byteCount };
}

/** The first bytes of it, or all, and how many it has. */
function fileBytes(path: string, bytesMax = Infinity): { bytes: Uint8Array; byteCount: number } {
  const refused = (code: string, words: string): ArchiveRefusal =>
    new ArchiveRefusal(code, `${path}: ${words}`, 'file');
  let file: number;
  try {
    // Without O_NONBLOCK a named pipe would hold the archive until somebody writes to it.
    file = openSync(path, constants.O_RDONLY | ((constants.O_NONBLOCK as number | undefined) ?? 0));
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    throw refused(
      'file-not-opened',
      code === 'ENOENT'
        ? 'there is no such file; give another one.'
        : 'the file can’t be opened; check its permissions.',
    );
  }
  try {
    const facts = fstatSync(file);
    if (!facts.isFile())
      throw refused(
        'file-not-regular',
        'this is no file but a folder or a device; give the file with the readings.',
      );
    if (facts.size > IMPORTED_FILE_BYTES_MAX)
      throw refused(
        'file-too-large',
        `the file has ${String(Math.ceil(facts.size / 1_048_576))} MiB, and at most ${String(IMPORTED_FILE_BYTES_MAX / 1_048_576)} MiB are imported, since its bytes are kept whole; split it or leave columns out.`,
      );
    const bytes = new Uint8Array(Math.min(facts.size, bytesMax));
    let filled = 0;
    while (filled < bytes.length) {
      const got = readSync(file, bytes, filled, bytes.length - filled, null);
      if (got === 0) break;
      filled += got;
    }
    return { bytes: bytes.subarray(0, filled), byteCount: facts.size };
  } finally {
    closeSync(file);
  }
}
