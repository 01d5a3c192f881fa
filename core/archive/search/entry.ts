/**
 * What the search knows of one pull, composed from the rows of the archive alone: the same rows give the same entry, so
 * that it can be made anew and compared at any time.
 */
import { z } from 'zod';
import { utcOffsetMinutes } from '../../contract/message.ts';
import { fractureNote, mark } from '../../contract/record.ts';
import { momentText } from '../../exchange/export/moment-text.ts';
import { effectiveMarks } from '../../pull/effective-marks.ts';
import { clockMsOf, statedDay, wallMsOfStated } from '../../pull/stated-day.ts';
import { originOfPull } from '../../pull/readings-origin.ts';
import { DOCUMENT_WORDS, type SetForm, setForm } from '../../sets/set-form.ts';
import { specimenFile } from '../../specimen/specimen-file.ts';
import { specimenChain, withSpecimenChain } from '../specimen-chain.ts';
import { type Connection, allRows, oneRow, sqlInteger, sqlJson } from '../sql.ts';
import { STATED_OF_PULL } from '../stated-day-reader.ts';
import { shownResults } from './shown-results.ts';
import { columnText, setWord } from './tokens.ts';
import { writtenOf } from './written-words.ts';

/** Raised by one when an entry is composed otherwise: archives then make their index anew at opening. */
export const SEARCH_FORM = 12;

const DAY_MS = 86_400_000;

export type Entry = Readonly<Record<string, string | number | null>> & { readonly pull_id: number };

/** Days since 1970 by the clock of the place. */
export const dayNumber = (wallMs: number, utcOffsetMinutes: number | null): number =>
  Math.floor((wallMs + (utcOffsetMinutes ?? 0) * 60_000) / DAY_MS);

const pullFacts = z.object({
  specimen_id: sqlInteger,
  operator: z.string().nullable(),
  started_wall_ms: sqlInteger,
  started_utc_offset_minutes: utcOffsetMinutes.nullable(),
  pulled_on: statedDay.nullable(),
  source_kind: z.string(),
  source_readings: z.string().nullable(),
  source_file: z.string().nullable(),
  second_kind: z.string().nullable(),
  peak_force_n: z.number().nullable(),
  reading_count: sqlInteger.nullable(),
  ended: sqlInteger,
  void_reason: z.string().nullable(),
});

/** Its facts and texts without a verdict; null where there is no such pull. Throws a RowDamagedError. */
export function composeEntry(
  connection: Connection,
  pullId: number,
  sets = new SetFacts(connection),
): Entry | null {
  const pull = oneRow(
    connection,
    pullFacts,
    `SELECT p.specimen_id, p.operator, p.started_wall_ms, p.started_utc_offset_minutes,
       coalesce(json_extract(p.source_json, '$.kind'), '') AS source_kind,
       json_extract(p.source_json, '$.readings') AS source_readings,
       json_extract(p.source_json, '$.file') AS source_file,
       json_extract(two.source_json, '$.kind') AS second_kind,
       e.peak_force_n, e.reading_count, e.pull_id IS NOT NULL AS ended, v.reason AS void_reason,
       ${STATED_OF_PULL('p')} AS pulled_on
     FROM pull p LEFT JOIN pull_end e USING (pull_id) LEFT JOIN pull_void v USING (pull_id)
       LEFT JOIN second_instrument two USING (pull_id)
     WHERE p.pull_id = ?`,
    pullId,
  );
  if (pull === null) return null;
  const specimens = specimensOf(connection, pull.specimen_id);
  const newest = specimens.at(-1);
  if (newest === undefined) return null;
  const specimen = newest.form_json;
  const places = placesOf(connection, pull.specimen_id, sets);
  const set = places.findLast(({ voided }) => !voided) ?? null;
  const fracture = fractureOf(connection, pullId);
  const { strengthMpa, yieldMpa, elongationPercent, isInInches } = shownResults(connection, {
    pullId,
    isTyped: pull.source_kind === 'typed',
    ended: pull.ended === 1,
    peakForceN: pull.peak_force_n,
    specimenId: newest.specimen_id,
    specimen,
  });
  const interrupted = isInterrupted(connection, pullId) ? 1 : 0;
  const forms = places.map(({ form }) => form);
  const rulePack = set?.packId ?? null;
  return {
    pull_id: pullId,
    words: columnText([
      ...specimens.map(({ name }) => name),
      `pull${String(pullId)}`,
      ...forms.flatMap(writtenInForm),
      ...(fracture?.words ?? []),
      ...writtenOf(connection, 'pull', pullId),
      // By its name alone too, without the folders before it.
      pull.source_file,
      pull.source_file?.split(/[\\/]/).at(-1),
      ...places.flatMap(({ setMemberId }) => writtenOf(connection, 'member', setMemberId)),
      ...specimens.flatMap(({ saved_by: by, reason, form_json: { notes } }) => [by, reason, notes]),
      ...places.flatMap(({ written }) => written),
    ]),
    set_names: columnText(
      forms.map(({ name }) => name),
      places.map(({ setId }) => setWord(setId)),
    ),
    rules: columnText([...places.flatMap(({ packId, packName }) => [packId, packName])]),
    base_metal: columnText(forms.flatMap(({ baseMetals }) => baseMetals.map((one) => one.designation))),
    filler: columnText(forms.map(({ filler }) => filler?.classification)),
    specimen_id: newest.specimen_id,
    specimen_name: newest.name,
    started_wall_ms: pull.started_wall_ms,
    pulled_on: pull.pulled_on,
    ...datedBy(pull),
    started: momentText(pull.started_wall_ms, pull.started_utc_offset_minutes),
    set_id: set?.setId ?? null,
    set_name: set?.form.name ?? null,
    rule_pack: rulePack,
    rule_pack_name: set?.packName ?? null,
    ...shownOfSet(set?.form),
    geometry: specimen.geometry.kind,
    measured_in: isInInches ? 'us' : 'si',
    place: fracture?.place ?? null,
    operator: pull.operator,
    origin:
      originOfPull({
        source: { kind: pull.source_kind, readings: pull.source_readings },
        second: pull.second_kind === null ? null : { source: { kind: pull.second_kind } },
      }) ?? pull.source_kind,
    ended: pull.ended,
    reading_count: pull.reading_count ?? 0,
    peak_force_n: pull.peak_force_n,
    strength_mpa: strengthMpa,
    yield_mpa: yieldMpa,
    elongation_percent: elongationPercent,
    interrupted,
    void_reason: pull.void_reason,
  };
}

/** By what it is sorted, and its day: as stated where somebody did, else the moment of its record. */
function datedBy({
  pulled_on: stated,
  started_wall_ms: wallMs,
  started_utc_offset_minutes: offset,
}: z.output<typeof pullFacts>): { readonly dated_wall_ms: number; readonly day: number } {
  return stated === null
    ? { dated_wall_ms: wallMs, day: dayNumber(wallMs, offset) }
    : { dated_wall_ms: wallMsOfStated(stated, offset), day: dayNumber(clockMsOf(stated), 0) };
}

/** As lists show it: what several base metals say stands once each, in their order. */
function shownOfSet(form: SetForm | undefined): Readonly<Record<string, string | null>> {
  const joined = (texts: readonly (string | undefined)[]): string | null =>
    [...new Set(texts.filter((text) => text !== undefined))].join(', ') || null;
  return {
    shown_base_metal: joined(form?.baseMetals.map(({ designation }) => designation) ?? []),
    shown_filler: form?.filler?.classification ?? null,
    heat: joined(form?.baseMetals.map(({ heat }) => heat) ?? []),
    filler_lot: form?.filler?.lot ?? null,
    welder: form?.welder ?? null,
  };
}

const specimenRow = z.object({
  specimen_id: sqlInteger,
  name: z.string(),
  form_json: sqlJson(specimenFile),
  saved_by: z.string().nullable(),
  reason: z.string().nullable(),
});

/** Every correction of a specimen, the first first. */
function specimensOf(connection: Connection, specimenId: number): z.output<typeof specimenRow>[] {
  return allRows(
    connection,
    specimenRow,
    specimenChain('s.specimen_id, s.name, s.form_json, s.saved_by, s.reason'),
    specimenId,
  );
}

interface SetFact {
  readonly form: SetForm;
  readonly packId: string;
  readonly packName: string;
  /** Its certificates, who said what stands, and all that was said before and is superseded. */
  readonly written: readonly (string | null | undefined)[];
}

const setRow = z.object({
  form: sqlJson(setForm),
  pack_id: z.string(),
  pack_name: z.string(),
  saved_by: z.string().nullable(),
  reason: z.string().nullable(),
});

/** What is said of each set; read once, where many pulls are composed one after the other. */
export class SetFacts {
  readonly #connection: Connection;
  readonly #known = new Map<number, SetFact | null>();

  constructor(connection: Connection) {
    this.#connection = connection;
  }

  of(setId: number): SetFact | null {
    const known = this.#known.get(setId);
    if (known !== undefined) return known;
    const [stands, ...before] = allRows(
      this.#connection,
      setRow,
      `SELECT json_extract(set_json, '$.form') AS form, json_extract(set_json, '$.pack.id') AS pack_id,
         json_extract(set_json, '$.pack.name') AS pack_name, saved_by, reason
       FROM set_statement WHERE set_id = ? ORDER BY set_statement_id DESC LIMIT ${String(STATEMENTS_MAX)}`,
      setId,
    );
    const fact =
      stands === undefined
        ? null
        : {
            form: stands.form,
            packId: stands.pack_id,
            packName: stands.pack_name,
            written: [
              ...writtenOf(this.#connection, 'set', setId),
              stands.saved_by,
              stands.reason,
              ...before.flatMap(({ form, saved_by: by, reason, pack_name: pack }) => [
                by,
                reason,
                form.name,
                pack,
                ...form.baseMetals.map(({ designation }) => designation),
                form.filler?.classification,
                ...writtenInForm(form),
              ]),
            ],
          };
    this.#known.set(setId, fact);
    return fact;
  }
}

/** Statements of one set that are read, the newest: more than anybody makes. */
const STATEMENTS_MAX = 200;

interface Place extends SetFact {
  readonly setId: number;
  readonly setMemberId: number;
  readonly voided: boolean;
}

/** The sets that it is in, in the order in which it joined. A specimen may have joined in any of its corrections. */
function placesOf(connection: Connection, specimenId: number, sets: SetFacts): Place[] {
  return allRows(
    connection,
    z.object({ set_id: sqlInteger, set_member_id: sqlInteger, voided: sqlInteger }),
    `${withSpecimenChain('?')}
     SELECT m.set_id, m.set_member_id, v.set_member_id IS NOT NULL AS voided
     FROM chain CROSS JOIN set_member m ON m.specimen_id = chain.specimen_id LEFT JOIN set_member_void v USING (set_member_id)
     ORDER BY m.set_member_id`,
    specimenId,
  ).flatMap(({ set_id, set_member_id, voided }) => {
    const fact = sets.of(set_id);
    return fact === null
      ? []
      : [{ ...fact, setId: set_id, setMemberId: set_member_id, voided: voided === 1 }];
  });
}

/** All but its name, rules, metals and filler, which are looked for by themselves too. */
const writtenInForm = (form: SetForm): (string | undefined)[] => [
  ...form.baseMetals.flatMap(({ heat, lot }) => [heat, lot]),
  form.filler?.heat,
  form.filler?.lot,
  form.welder,
  form.customer,
  form.process,
  form.joint,
  form.position,
  ...form.documents.flatMap((one) => [DOCUMENT_WORDS[one.kind], one.number]),
  form.fewerReason,
  form.notes,
];

/** The note that stands: each supersedes the one before. Its words are those that were chosen; what was typed is read with the rest. */
function fractureOf(
  connection: Connection,
  pullId: number,
): { readonly place: string; readonly words: (string | undefined)[] } | null {
  const row = oneRow(
    connection,
    z.object({ note_json: sqlJson(fractureNote) }),
    'SELECT note_json FROM fracture_note WHERE pull_id = ? ORDER BY fracture_note_id DESC LIMIT 1',
    pullId,
  );
  if (row === null) return null;
  const { place, atMark, soundness, discontinuities = [] } = row.note_json;
  return { place, words: [place, atMark, soundness, ...discontinuities.map(({ kind }) => kind)] };
}

/** Nothing was received for a while between trigger and break. */
function isInterrupted(connection: Connection, pullId: number): boolean {
  const gaps = allRows(
    connection,
    z.object({ before_seq: sqlInteger }),
    'SELECT before_seq FROM gap WHERE pull_id = ?',
    pullId,
  );
  if (gaps.length === 0) return false;
  const { triggerSeq, breakSeq } = effectiveMarks(
    allRows(
      connection,
      z.object({ kind: mark.shape.kind, seq: sqlInteger }),
      'SELECT kind, seq FROM mark WHERE pull_id = ? ORDER BY mark_id',
      pullId,
    ),
  );
  return gaps.some(
    ({ before_seq }) =>
      before_seq >= (triggerSeq ?? 0) && before_seq <= (breakSeq ?? Number.MAX_SAFE_INTEGER),
  );
}
