/** Keeps the search index in step: after each statement, in its own transaction. */
import { z } from 'zod';
import type { Outcome } from '../../acceptance/verdict.ts';
import { needsVerdicts } from '../../contract/search-requests.ts';
import { mayWrite } from '../let-write.ts';
import { withSpecimenChain } from '../specimen-chain.ts';
import { type Connection, allRows, countOf, insert, oneRow, sqlInteger, statement } from '../sql.ts';
import { SetFacts, composeEntry } from './entry.ts';
import { entryChanged, judgedAnew } from './held-search.ts';
import { type VerdictAside, keepAside } from './verdicts-aside.ts';

/** Of an entry of the audit chain. */
export interface StatedAbout {
  readonly subject: string;
  readonly subjectId: number;
}

const ids = z.object({ pull_id: sqlInteger });

const ofSpecimens = (asked: string): string =>
  `${withSpecimenChain(asked)} SELECT p.pull_id FROM chain CROSS JOIN pull p ON p.specimen_id = chain.specimen_id`;

/** The pulls that a statement about this table may change in the search. Others change nothing there. */
const TOUCHED: Readonly<Record<string, string>> = {
  pull: 'SELECT pull_id FROM pull WHERE pull_id = ?',
  pull_void: 'SELECT pull_id FROM pull WHERE pull_id = ?',
  fracture_note: 'SELECT pull_id FROM fracture_note WHERE fracture_note_id = ?',
  evaluation: 'SELECT pull_id FROM evaluation WHERE evaluation_id = ?',
  specimen: ofSpecimens('SELECT supersedes FROM specimen WHERE specimen_id = ?'),
  specimen_set: ofSpecimens('SELECT specimen_id FROM set_member WHERE set_id = ?'),
  // A void or a retest of one may change what is said of the others.
  set_member: ofSpecimens(
    'SELECT m.specimen_id FROM set_member m JOIN set_member own USING (set_id) WHERE own.set_member_id = ?',
  ),
  verdict_override: ofSpecimens(
    'SELECT m.specimen_id FROM set_member m JOIN verdict_override o USING (set_member_id) WHERE o.verdict_override_id = ?',
  ),
};

const ofCertificate = (asked: string): string => `WITH asked (certificate_id) AS (${asked})
    SELECT pull_id FROM certificate JOIN asked USING (certificate_id) WHERE pull_id IS NOT NULL
    UNION SELECT pull_id FROM (${ofSpecimens(
      'SELECT specimen_id FROM set_member WHERE set_id = (SELECT set_id FROM certificate JOIN asked USING (certificate_id))',
    )})`;

/** They change no verdict: the pulls are only found by their words or their day too. */
const TOUCHED_IN_WORDS: Readonly<Record<string, string>> = {
  stated_day: 'SELECT pull_id FROM stated_day WHERE stated_day_id = ?',
  certificate: ofCertificate('SELECT ?'),
  signature: ofCertificate('SELECT certificate_id FROM signature WHERE signature_id = ?'),
  photo: 'SELECT pull_id FROM photo WHERE photo_id = ?',
  photo_withdrawal: 'SELECT pull_id FROM photo WHERE photo_id = ?',
};

/** To be called inside the transaction that keeps the statement, after its rows. */
export function keepInStep(connection: Connection, { subject, subjectId }: StatedAbout): void {
  const sql = TOUCHED[subject] ?? TOUCHED_IN_WORDS[subject];
  if (sql === undefined || !isThere(connection)) return;
  const keepVerdict = TOUCHED[subject] === undefined;
  const sets = new SetFacts(connection);
  for (const { pull_id } of allRows(connection, ids, sql, subjectId))
    putEntry(connection, pull_id, { sets, keepVerdict });
}

const verdictRow = z.object({
  verdict: z.string().nullable(),
  questionable: sqlInteger.nullable(),
  made_at_audit: sqlInteger,
});
type KeptVerdict = z.output<typeof verdictRow>;

/** Puts the entry of one pull in, or in the place of the one that is there. */
export function putEntry(
  connection: Connection,
  pullId: number,
  { sets, keepVerdict }: { readonly sets: SetFacts; readonly keepVerdict: boolean },
): void {
  const entry = composeEntry(connection, pullId, sets);
  if (entry === null) return;
  const before = keepVerdict ? verdictOf(connection, pullId) : null;
  statement(connection, 'DELETE FROM search_entry WHERE pull_id = ?').run(pullId);
  insert(connection, 'search_entry', {
    ...entry,
    verdict: before?.verdict ?? null,
    questionable: before?.questionable ?? null,
    made_at_audit: before?.made_at_audit ?? auditHead(connection),
  });
  entryChanged(connection, pullId);
}

const verdictOf = (connection: Connection, pullId: number): KeptVerdict | null =>
  oneRow(
    connection,
    verdictRow,
    'SELECT verdict, questionable, made_at_audit FROM search_entry WHERE pull_id = ?',
    pullId,
  );

/** Number of the newest entry of the audit chain. */
export const auditHead = (connection: Connection): number =>
  countOf(connection, 'SELECT coalesce(max(audit_id), 0) AS n FROM audit');

export interface JudgedPull {
  readonly pullId: number;
  /** Null while it can't be judged. */
  readonly outcome: Outcome | null;
  readonly questionable: boolean;
}

/**
 * Verdicts of a set that was judged when the audit chain ended with entry `judgedAtAudit`. What has been said since
 * wins: a verdict that rests on older rows is not kept. Other pulls of the set (void ones, ones before a retest) have none.
 * A connection that only reads keeps them beside the archive, as long as it is open.
 */
export function keepVerdicts(
  connection: Connection,
  setId: number,
  judged: readonly JudgedPull[],
  judgedAtAudit: number,
): void {
  const of = new Map(judged.map((one) => [one.pullId, one]));
  const changed = (): VerdictAside[] =>
    allRows(
      connection,
      z.object({ pull_id: sqlInteger, ...verdictRow.shape }),
      'SELECT pull_id, verdict, questionable, made_at_audit FROM search_entry WHERE set_id = ?',
      setId,
    ).flatMap((row) => {
      const one = of.get(row.pull_id);
      const now = {
        pullId: row.pull_id,
        verdict: one?.outcome ?? null,
        questionable: one?.outcome ? Number(one.questionable) : 0,
      };
      const isOlder = row.made_at_audit > judgedAtAudit;
      const isSame = row.verdict === now.verdict && row.questionable === now.questionable;
      return isOlder || isSame ? [] : [now];
    });
  if (mayWrite(connection)) connection.transaction(() => putVerdicts(connection, changed())).immediate();
  else {
    const aside = changed();
    keepAside(connection, aside);
    for (const { pullId } of aside) judgedAnew(connection, pullId);
  }
}

function putVerdicts(connection: Connection, verdicts: readonly VerdictAside[]): void {
  for (const { pullId, verdict, questionable } of verdicts) {
    statement(connection, 'UPDATE search_entry SET verdict = ?, questionable = ? WHERE pull_id = ?').run(
      verdict,
      questionable,
      pullId,
    );
    judgedAnew(connection, pullId);
  }
}

/** Sets with a pull of which it is not known how the set judges it, newest first. */
export function setsToJudge(connection: Connection): number[] {
  return allRows(
    connection,
    z.object({ set_id: sqlInteger }),
    `SELECT DISTINCT set_id FROM search_entry
     WHERE set_id IS NOT NULL AND questionable IS NULL AND ended = 1 ORDER BY set_id DESC`,
  ).map((row) => row.set_id);
}

/** How many of them there are, where what is asked rests on verdicts; 0 otherwise. */
export const setsNotJudged = (connection: Connection, asked: Parameters<typeof needsVerdicts>[0]): number =>
  needsVerdicts(asked) ? setsToJudge(connection).length : 0;

/** An archive of an earlier form, on its way to the present one, has none yet. */
export const isThere = (connection: Connection): boolean =>
  countOf(
    connection,
    "SELECT count(*) AS n FROM sqlite_schema WHERE name IN ('search_form', 'search_text')",
  ) === 2;
