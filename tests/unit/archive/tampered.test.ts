/**
 * An archive that somebody changed by other means, its triggers dropped. The check finds each change and names where.
 */
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { evaluationOptions } from '../../../core/contract/evaluation-options.ts';
import { Archive } from '../../../core/archive/archive.ts';
import { keepEvaluation } from '../../../core/archive/evaluation-store.ts';
import { noteFracture } from '../../../core/archive/fracture-store.ts';
import { MIGRATIONS } from '../../../core/archive/migrations/index.ts';
import { migrate } from '../../../core/archive/migrate.ts';
import { METHOD_VERSION } from '../../../core/results/evaluation.ts';
import { recomputeIn } from '../../../electron/recorder/recompute.ts';
import { WALL_MS, keptPull, openArchive, scratchFolder } from './made-archive.ts';

const OPTIONS = { programVersion: '9.9.9', wallMs: () => WALL_MS };
let folder = '';
let sound = '';
afterAll(() => rmSync(folder, { recursive: true, force: true }));

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'gaugemark-test-'));
  sound = join(folder, 'sound.gaugemark');
  const archive = new Archive(sound, OPTIONS);
  const pullId = keptPull(archive, 10, 50);
  const values = recomputeIn(archive)({ pullId, specimenId: 1, options: {} });
  archive.sets((connection, keeping) => {
    noteFracture(connection, { pullId, note: { place: 'weld-metal' } }, WALL_MS);
    keepEvaluation(
      connection,
      {
        pullId,
        specimenId: 1,
        options: evaluationOptions.parse({}),
        sources: [],
        values,
        methodVersion: METHOD_VERSION,
        supersedes: null,
        reason: 'as recorded',
      },
      keeping,
    );
  });
  archive.close();
});

/** What the check says is not sound in a copy that `sql` was done to, all triggers dropped before. */
function foundAfter(...sql: string[]): string {
  const path = join(scratchFolder(), 'a.gaugemark');
  copyFileSync(sound, path);
  const other = new Database(path);
  other.pragma('foreign_keys = OFF');
  const triggers = other.prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'").pluck().all();
  for (const name of triggers) other.exec(`DROP TRIGGER ${String(name)}`);
  for (const one of sql) expect(other.prepare(one).run().changes).toBeGreaterThan(0);
  other.close();
  const archive = openArchive(path);
  const { lines } = archive.check({ recompute: recomputeIn(archive) });
  return lines
    .filter(({ ok }) => !ok)
    .map(({ name, words }) => `${name}: ${words}`)
    .join('\n');
}

describe('a copy that was changed by other means', () => {
  it('is sound where nothing was changed, and its kept results come out again', () => {
    expect(foundAfter()).toBe('');
  });

  it.each([
    ['a reading', ['UPDATE reading_block SET body = zeroblob(40)'], /pull 1/],
    ['the raw bytes', ['UPDATE raw_block SET body = zeroblob(40) WHERE first_chunk = 0'], /pull 1/],
    ['the hash of a raw block', ['UPDATE raw_block SET sha256 = zeroblob(32)'], /blocks don't agree/],
    [
      'what the record was closed with',
      ['UPDATE pull_end SET peak_force_n = 9'],
      /pull_end 1 is not what it was/,
    ],
    [
      'a specimen',
      [`UPDATE specimen SET form_json = replace(form_json, '6.3 mm', '6.2 mm')`],
      /specimen 1 is not what it was/,
    ],
    [
      'a measurement',
      ["UPDATE measurement SET text = '6.2 mm' WHERE text = '6.3 mm'"],
      /measurements of specimen 1/,
    ],
    [
      'a fracture note',
      [`UPDATE fracture_note SET note_json = '{"place":"base-metal"}'`],
      /fracture_note 1 is not/,
    ],
    [
      'a result',
      [`UPDATE evaluation SET values_json = replace(values_json, '"value":', '"value":1')`],
      /evaluation 1/,
    ],
    [
      'an audit entry in the middle',
      ['UPDATE audit SET wall_ms = wall_ms + 1 WHERE audit_id = 3'],
      /broken at entry 3/,
    ],
    [
      'the last audit entry',
      ['UPDATE audit SET wall_ms = 1 WHERE audit_id = (SELECT max(audit_id) FROM audit)'],
      /audit chain: broken/,
    ],
    [
      'the last audit entry, taken out',
      ['DELETE FROM audit WHERE audit_id = (SELECT max(audit_id) FROM audit)'],
      /evaluation 1 is named by no entry/,
    ],
    [
      'an audit entry in the middle, taken out',
      ['DELETE FROM audit WHERE audit_id = 4'],
      /audit chain: broken/,
    ],
    [
      'a row, taken out',
      ['DELETE FROM fracture_note'],
      /fracture_note 1 is named by the audit chain and missing/,
    ],
    [
      'a row, put in',
      ["INSERT INTO laboratory (name, lines_json, wall_ms) VALUES ('another', '[]', 1)"],
      /laboratory 1 is named by no entry/,
    ],
  ] as const)('is found: %s', (_what, sql, told) => {
    expect(foundAfter(...sql)).toMatch(told);
  });
});

it('rows that an older form left are compared with what they were when the archive was brought to this one', () => {
  const path = join(scratchFolder(), 'old.gaugemark');
  copyFileSync(new URL('../../../fixtures/archives/form-1.gaugemark', import.meta.url), path);
  const old = new Database(path);
  migrate(old, path, OPTIONS, MIGRATIONS);
  old.exec('DROP TRIGGER specimen_is_not_changed');
  old.exec("UPDATE specimen SET saved_by = 'somebody else'");
  old.close();
  const { lines } = openArchive(path).check({});
  expect(lines.find(({ name }) => name === 'statements')?.words).toMatch(
    /rows of specimen up to 1 are not what they were/,
  );
});
