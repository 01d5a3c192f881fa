/** A pull that was typed from the frame's display: begun, ended and its values kept in one transaction. */
import { TYPED_RULES, TYPED_WORDS, typedProfile } from '../pull/typed-pull.ts';
import { type TypedValues, typedNumbers } from '../pull/typed-values.ts';
import { appendAudit } from './audit.ts';
import type { NewPull } from './batch.ts';
import { type Keeper, beginPull, closePull } from './pull-store.ts';
import { insert } from './sql.ts';

export interface TypePull extends Pick<
  NewPull,
  | 'specimenId'
  | 'operator'
  | 'startedWallMs'
  | 'startedUtcOffsetMinutes'
  | 'startedMonotonicUs'
  | 'boot'
  | 'instruments'
> {
  readonly typed: TypedValues;
}

/** Gives the number of the pull. Throws an ArchiveRefusal where the specimen is unknown or a record is open. */
export function typePull(keeper: Keeper, { typed, ...pull }: TypePull): number {
  const { connection } = keeper;
  return connection
    .transaction(() => {
      const pullId = beginPull(keeper, {
        ...pull,
        profile: typedProfile(),
        source: { kind: 'typed' },
        sourceWords: TYPED_WORDS,
        rules: TYPED_RULES,
        plannedForceN: null,
        plannedExtensionMm: null,
      });
      insert(connection, 'typed_pull', { pull_id: pullId, typed_json: JSON.stringify(typed) });
      appendAudit(connection, pull.startedWallMs, {
        what: 'pull typed from the display',
        subject: 'typed_pull',
        subjectId: pullId,
        detail: { typed, by: pull.operator },
      });
      closePull(
        keeper,
        {
          pullId,
          chunks: [],
          firstSeq: 0,
          readings: [],
          marks: [],
          gaps: [],
          gapEndedUs: null,
          acts: [],
          zeros: [],
        },
        {
          endedWallMs: pull.startedWallMs,
          durationUs: 0,
          peakForceN: typedNumbers(typed).loadN,
          misfitCount: {},
        },
      );
      return pullId;
    })
    .immediate();
}
