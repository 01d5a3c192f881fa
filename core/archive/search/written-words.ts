/**
 * What people wrote of one pull, wherever in the archive it stands: reasons, persons, captions, names of files and
 * instruments, also what was superseded since. `WRITTEN` names every column that is read here, so that a test can hold it
 * against the schema.
 */
import { z } from 'zod';
import { type Connection, allRows } from '../sql.ts';

/** Rows that name the pull, or hang on one that does. `of` gives them for the pull `$id`. */
const OF_PULL = [
  { of: 'pull row WHERE row.pull_id = $id', columns: ['operator'] },
  { of: 'pull_void row WHERE row.pull_id = $id', columns: ['reason', 'voided_by'] },
  {
    of: 'fracture_note row WHERE row.pull_id = $id',
    columns: ['noted_by', 'reason'],
    within: {
      note_json: ['appearance', 'remarks'].map((name) => `json_extract(row.note_json, '$.${name}')`),
    },
  },
  {
    of: 'evaluation row WHERE row.pull_id = $id',
    columns: ['reason', 'kept_by'],
    within: {
      options_json: ['$.judgedBy.pack.name', '$.lineFormat.name'].map(
        (path) => `json_extract(row.options_json, '${path}')`,
      ),
      sources_json: [
        "(SELECT group_concat(json_extract(one.value, '$.name'), char(10)) FROM json_each(row.sources_json) one)",
      ],
    },
  },
  { of: 'stated_day row WHERE row.pull_id = $id', columns: ['pulled_on', 'said_by', 'reason'] },
  { of: 'photo row WHERE row.pull_id = $id', columns: ['file_name', 'caption', 'added_by', 'reason'] },
  {
    of: 'photo CROSS JOIN photo_withdrawal row USING (photo_id) WHERE photo.pull_id = $id',
    columns: ['reason', 'withdrawn_by'],
  },
  {
    // As they stood at the start of the pull.
    of: "pull_instruments row CROSS JOIN json_each(row.instruments_json, '$.used') used WHERE row.pull_id = $id",
    columns: [],
    within: {
      instruments_json: ['name', 'serialNumber', 'certificateNumber'].map(
        (name) => `json_extract(used.value, '$.${name}')`,
      ),
    },
  },
  {
    of: 'pull CROSS JOIN readout_profile row USING (profile_id) WHERE pull.pull_id = $id',
    columns: ['name'],
  },
  {
    of: 'second_instrument CROSS JOIN readout_profile row USING (profile_id) WHERE second_instrument.pull_id = $id',
    columns: [],
    within: { name: ['row.name'] },
  },
  // Of an open record the entry stands still: what is done meanwhile is written into it when it is closed.
  {
    of: 'act row WHERE row.pull_id = $id AND EXISTS (SELECT 1 FROM pull_end WHERE pull_id = $id)',
    columns: ['done_by'],
  },
  { of: 'certificate row WHERE row.pull_id = $id', columns: ['number'] },
  {
    of: 'certificate CROSS JOIN signature row USING (certificate_id) WHERE certificate.pull_id = $id',
    columns: ['printed_name', 'meaning'],
  },
] as const satisfies readonly Source[];

/** The same of a set, `$id`. */
const OF_SET = [
  { of: 'certificate row WHERE row.set_id = $id', columns: ['number'] },
  {
    of: 'certificate CROSS JOIN signature row USING (certificate_id) WHERE certificate.set_id = $id',
    columns: ['printed_name', 'meaning'],
  },
] as const satisfies readonly Source[];

/** The same of one member of a set, `$id`. */
const OF_MEMBER = [
  { of: 'set_member row WHERE row.set_member_id = $id', columns: ['retest_reason', 'joined_by'] },
  { of: 'set_member_void row WHERE row.set_member_id = $id', columns: ['reason', 'voided_by'] },
  { of: 'verdict_override row WHERE row.set_member_id = $id', columns: ['person', 'reason'] },
] as const satisfies readonly Source[];

interface Source {
  /** Tables with their condition; the table that is read is called `row`. */
  readonly of: string;
  readonly columns: readonly string[];
  /** Parts of a column, as SQL. */
  readonly within?: Readonly<Record<string, readonly string[]>>;
}

const sqlOf = (sources: readonly Source[]): string =>
  `WITH asked (id) AS (SELECT ?) ${sources
    .map(({ of, columns, within = {} }) => {
      const texts = [...columns.map((column) => `row.${column}`), ...Object.values(within).flat()];
      return `SELECT concat_ws(char(10), ${texts.join(', ')}) AS text FROM ${of}`;
    })
    .join(' UNION ALL ')
    // One place for the number: the library takes no parameter that stands twice.
    .replaceAll('$id', '(SELECT id FROM asked)')}`;

const SQL = { pull: sqlOf(OF_PULL), set: sqlOf(OF_SET), member: sqlOf(OF_MEMBER) };

/** Line by line, so that what stands in many rows is kept once. */
export function writtenOf(connection: Connection, what: keyof typeof SQL, id: number): readonly string[] {
  return allRows(connection, z.object({ text: z.string() }), SQL[what], id).flatMap(({ text }) =>
    text.split('\n'),
  );
}

/** Columns whose text, or a part of it, is found: those above and what `entry.ts` reads. */
export const WRITTEN: readonly string[] = [
  ...new Set([
    ...[...OF_PULL, ...OF_SET, ...OF_MEMBER].flatMap((source: Source) => {
      const table = /(\w+) row\b/.exec(source.of)?.[1] ?? '';
      return [...source.columns, ...Object.keys(source.within ?? {})].map((column) => `${table}.${column}`);
    }),
    'pull.source_json',
    ...['name', 'form_json', 'saved_by', 'reason'].map((column) => `specimen.${column}`),
    ...['name', 'set_json', 'saved_by', 'reason'].map((column) => `set_statement.${column}`),
  ]),
];
