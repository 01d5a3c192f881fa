/** Evaluations in the archive: never changed, each names the one that it supersedes. */
import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { Archive } from '../../../core/archive/archive.ts';
import {
  type KeepEvaluation,
  evaluationHistory,
  keepEvaluation,
  standingEvaluation,
} from '../../../core/archive/evaluation-store.ts';
import { APPLICATION_ID } from '../../../core/archive/file-head.ts';
import { migrate } from '../../../core/archive/migrate.ts';
import { MIGRATIONS, SCHEMA_VERSION } from '../../../core/archive/migrations/index.ts';
import { standingOptions } from '../../../core/evaluation/standing-options.ts';
import type { EvaluationOptions } from '../../../core/results/evaluation.ts';
import { SPECIMEN, WALL_MS, keptPull, newPull, openArchive, scratchFolder } from './made-archive.ts';

const archiveWithPull = (): { archive: Archive; pullId: number } => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  return { archive, pullId: keptPull(archive) };
};

const keep = (archive: Archive, given: Partial<KeepEvaluation> & { pullId: number }): number =>
  archive.sets((connection, keeping) =>
    keepEvaluation(
      connection,
      {
        specimenId: 1,
        options: { corrections: { forceZeroN: 40 } },
        sources: [],
        values: [{ symbol: 'Rm', value: 412.5, unit: 'MPa' }],
        methodVersion: '1',
        supersedes: null,
        reason: 'grip weight was not zeroed',
        ...given,
      },
      keeping,
    ),
  );
const standing = (archive: Archive, pullId: number) =>
  archive.sets((connection) => standingEvaluation(connection, pullId));

describe('an evaluation that is kept', () => {
  it('stands with options, values, files, who, when and why, until another supersedes it', () => {
    const { archive, pullId } = archiveWithPull();
    expect(standing(archive, pullId)).toBeNull();
    const sources = [{ what: 'blank run', name: 'blank.csv', sha256: 'ab'.repeat(32) }];
    const first = keep(archive, { pullId, by: 'operator 2', sources });
    expect(standing(archive, pullId)).toEqual({
      evaluationId: first,
      pullId,
      specimenId: 1,
      options: { corrections: { forceZeroN: 40 } },
      sources,
      values: [{ symbol: 'Rm', value: 412.5, unit: 'MPa' }],
      methodVersion: '1',
      programVersion: '9.9.9',
      keptWallMs: WALL_MS,
      by: 'operator 2',
      supersedes: null,
      reason: 'grip weight was not zeroed',
    });
    const back = keep(archive, { pullId, options: {}, supersedes: first, reason: 'it was zeroed after all' });
    expect(standing(archive, pullId)).toMatchObject({ evaluationId: back, options: {}, supersedes: first });
    const history = archive.sets((connection) => evaluationHistory(connection, pullId));
    expect(history.map((one) => one.evaluationId)).toEqual([first, back]);
  });

  it('kept under the names of earlier versions says the same under those of today', () => {
    const { archive, pullId } = archiveWithPull();
    const earlier = {
      totalExtensionsPercent: [0.5, 1],
      arcForm: 'series',
      elongationOn: { gaugeLengthMm: 200, rule: 'iso-2566-2' },
      measuring: { forceClass: '0.5', forceUncertaintyPercent: 0.4, forceResolutionN: 10 },
      offsetsPercent: [0.2],
    };
    keep(archive, { pullId, options: earlier as unknown as EvaluationOptions });
    expect(standing(archive, pullId)?.options).toEqual({
      extensionsUnderLoadPercent: [0.5, 1],
      sectionForm: 'simplified',
      convertElongation: { gaugeLengthMm: 200, materialKind: 'austenitic' },
      measuring: { readoutClass: '0.5', readoutUncertaintyPercent: 0.4, readoutResolutionN: 10 },
      offsetsPercent: [0.2],
    });
  });

  it('supersedes the one that stands, and no other', () => {
    const { archive, pullId } = archiveWithPull();
    expect(() => keep(archive, { pullId, supersedes: 7 })).toThrow(/stands as recorded/);
    const first = keep(archive, { pullId });
    expect(() => keep(archive, { pullId })).toThrow(/was kept meanwhile/);
    keep(archive, { pullId, supersedes: first });
    expect(() => keep(archive, { pullId, supersedes: first })).toThrow(/was kept meanwhile/);
  });

  it('is refused for a record that is open or not there', () => {
    const { archive } = archiveWithPull();
    const open = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
    expect(() => keep(archive, { pullId: open })).toThrow(/still open/);
    expect(() => keep(archive, { pullId: 99 })).toThrow(/no pull 99/);
  });

  it('is never changed nor deleted, changes nothing recorded, and stands in the audit chain', () => {
    const { archive, pullId } = archiveWithPull();
    const before = archive.getPull(pullId);
    keep(archive, { pullId });
    const { connection } = archive;
    for (const sql of ["UPDATE evaluation SET options_json = '{}'", 'DELETE FROM evaluation'])
      expect(() => connection.prepare(sql).run()).toThrow(/never (?:changed|deleted)/);
    expect(archive.getPull(pullId)).toEqual(before);
    expect(archive.check({ pullId }).sound).toBe(true);
    expect(connection.prepare("SELECT count(*) FROM audit WHERE subject = 'evaluation'").pluck().get()).toBe(
      1,
    );
  });

  it('can not begin a second line of evaluations, nor lack its reason, even by other means', () => {
    const { archive, pullId } = archiveWithPull();
    keep(archive, { pullId });
    const copied = (change: string) =>
      archive.connection
        .prepare(
          `INSERT INTO evaluation SELECT NULL, pull_id, specimen_id, options_json, sources_json, values_json,
             method_version, program_version, kept_wall_ms, kept_by, ${change} FROM evaluation`,
        )
        .run();
    expect(() => copied("NULL, 'a second first one'")).toThrow(/UNIQUE/);
    expect(() => copied("1, ' '")).toThrow(/CHECK/);
  });
});

it('the marked break counts where the evaluation says no other', () => {
  const pull = { breakSeq: 100 };
  expect(standingOptions(pull, null)).toEqual({ fractureIndex: 99 });
  expect(standingOptions(pull, { options: { offsetsPercent: [1] } })).toEqual({
    fractureIndex: 99,
    offsetsPercent: [1],
  });
  expect(standingOptions(pull, { options: { fractureIndex: 90 } })).toEqual({ fractureIndex: 90 });
});

describe('an archive of every form before', () => {
  it.each(MIGRATIONS.slice(0, -1).map((_, index) => [index + 1]))(
    'form %i takes evaluations after it has been opened',
    (form) => {
      const path = join(scratchFolder(), 'old.gaugemark');
      const old = new Database(path);
      migrate(old, path, { programVersion: '0.0.1', wallMs: () => WALL_MS }, MIGRATIONS.slice(0, form));
      expect(old.pragma('application_id', { simple: true })).toBe(APPLICATION_ID);
      old.close();
      const archive = openArchive(path);
      expect(archive.connection.pragma('user_version', { simple: true })).toBe(SCHEMA_VERSION);
      const pullId = keptPull(archive);
      keep(archive, { pullId });
      expect(standing(archive, pullId)?.reason).toContain('grip weight');
      expect(archive.check({}).sound).toBe(true);
    },
  );

  it('keeps the pull that the first version left, and takes an evaluation of it', () => {
    const path = join(scratchFolder(), 'old.gaugemark');
    copyFileSync(new URL('../../../fixtures/archives/form-1.gaugemark', import.meta.url), path);
    const archive = openArchive(path);
    expect(standing(archive, 1)).toBeNull();
    keep(archive, { pullId: 1 });
    expect(archive.getPull(1).readingCount).toBe(20);
    expect(standing(archive, 1)).not.toBeNull();
  });
});
