/**
 * What was said of a pull beside its readings, as an exported document tells it: by whom, when and why, with everything
 * that was superseded since. Moments are milliseconds since 1970 in UTC.
 */
import { z } from 'zod';
import { OUTCOMES } from '../../acceptance/verdict.ts';
import { keptCalibration } from '../../contract/instrument-requests.ts';
import { rowId, utcOffsetMinutes, wallMs } from '../../contract/message.ts';
import { PERSON_ROLES } from '../../contract/people-requests.ts';
import { signature } from '../../contract/signature-requests.ts';
import { keptSpecimen } from '../../contract/specimen-requests.ts';
import { CALIBRATION_STATES } from '../../instruments/calibration.ts';
import { instrumentForm } from '../../instruments/instrument.ts';
import { frozenSet } from '../../sets/set-form.ts';
import { PAPER_LANGUAGES } from '../../words/paper-words.ts';
import { keptValuesDocument } from './evaluation-document.ts';

const by = z.string().nullable();
const reason = z.string().nullable();
const sha256 = z
  .string()
  .regex(/^[0-9a-f]{64}$/)
  .describe('SHA-256, lower-case hexadecimal');
const supersedes = rowId.nullable();

export const documentArchive = z.strictObject({
  facts: z
    .record(z.string(), z.string())
    .describe('identity of the archive, and when and by which version it was begun'),
  laboratory: z
    .strictObject({ name: z.string(), lines: z.array(z.string()), wallMs })
    .nullable()
    .describe('who issues certificates here, as it stands now'),
});

const profileKept = z.strictObject({
  sha256: sha256.describe('of the readout profile as it is kept'),
  savedWallMs: wallMs,
});

/** Facts of the record that `pull` does not tell. */
export const documentRecord = z.strictObject({
  sourceWords: z.string(),
  boot: z.string().describe('start of the computer that the monotonic clock counts from'),
  plannedForceN: z.number().nullable(),
  plannedExtensionMm: z.number().nullable(),
  profile: profileKept,
  secondProfile: profileKept.nullable(),
  zeros: z
    .array(
      z.strictObject({
        channelKey: z.string(),
        value: z.string().describe('exact ratio in the unit of the core, "-1113/500"'),
        seq: z.int().min(0).describe('reading from which on it was known'),
      }),
    )
    .describe('in the order in which they were taken; `pull.zeros` has the last of each channel'),
  ended: z
    .strictObject({
      wallMs,
      peakForceN: z.number().nullable(),
      readingsSha256: sha256.describe('over all decoded readings, as the archive checks them'),
    })
    .nullable(),
  origin: z
    .strictObject({ archiveIdentity: z.string(), pullIdThere: rowId, takenWallMs: wallMs })
    .nullable()
    .describe('the archive that it was taken from; null where it was recorded in this one'),
});

export const documentSpecimen = z.strictObject({
  ...keptSpecimen.unwrap().shape,
  programVersion: z.string(),
});

const documentCalibration = z.strictObject({
  ...keptCalibration.unwrap().shape,
  form: z
    .looseObject({ certificateNumber: z.string(), calibratedOn: z.string(), dueOn: z.string() })
    .describe(
      'as it was entered, with correction and worksheet where there are such; figures as they were typed',
    ),
});

export const documentInstrument = z.strictObject({
  instrumentId: rowId,
  begunWallMs: wallMs,
  stateAtStart: z.enum(CALIBRATION_STATES),
  calibrationAtStart: rowId.nullable(),
  statements: z.array(
    z.strictObject({
      statementId: rowId,
      form: instrumentForm,
      retired: z.boolean(),
      wallMs,
      by,
      supersedes,
      reason,
    }),
  ),
  calibrations: z.array(documentCalibration).describe('all that were entered, superseded ones too'),
});

export const documentSet = z.strictObject({
  setId: rowId,
  begunWallMs: wallMs,
  name: z.string(),
  statements: z
    .array(
      z.strictObject({
        statementId: rowId,
        set: frozenSet.describe(
          'base metals, filler, welder, documents, notes …, and the rule pack as it was',
        ),
        wallMs,
        by,
        supersedes,
        reason,
        programVersion: z.string(),
      }),
    )
    .describe('oldest first; the last one stands'),
  setMemberId: rowId,
  member: z.strictObject({
    specimenId: rowId.describe('the specimen as it was first kept'),
    joinedWallMs: wallMs,
    joinedBy: by,
    retestOf: z.strictObject({ setMemberId: rowId, specimenName: z.string(), reason: z.string() }).nullable(),
    voided: z.strictObject({ by: z.string(), reason: z.string(), wallMs }).nullable(),
    overrides: z
      .array(
        z.strictObject({
          overrideId: rowId,
          to: z.enum(OUTCOMES),
          person: z.string(),
          reason: z.string(),
          wallMs,
          utcOffsetMinutes,
        }),
      )
      .describe('the last one counts'),
  }),
  verdict: z
    .strictObject({
      outcome: z.enum(OUTCOMES).describe('what counts: the last person who overruled it, else the rules'),
      outcomeOfRules: z.enum(OUTCOMES),
      questionable: z.boolean(),
      sentence: z.string(),
    })
    .nullable()
    .describe('at the moment of the export; null where this pull is not judged in the set'),
});
export type DocumentSet = z.infer<typeof documentSet>;
export type DocumentVerdict = DocumentSet['verdict'];

const documentSignature = z.strictObject({
  ...signature.unwrap().shape,
  signer: z
    .strictObject({
      personId: rowId,
      name: z.string(),
      sign: z.string(),
      roles: z.array(z.enum(PERSON_ROLES)),
      retired: z.boolean(),
      wallMs,
      supersedes,
      reason,
    })
    .nullable()
    .describe('the entry of the person as it stood then; null where a name alone was given'),
});

export const documentCertificate = z.strictObject({
  number: z.string(),
  issued: z.iso.datetime({ offset: true }),
  about: z
    .strictObject({ setId: rowId.nullable(), setMemberId: rowId.nullable(), pullId: rowId.nullable() })
    .describe('a set, one member of it, or a pull without a set'),
  contentSha256: sha256,
  language: z
    .enum(PAPER_LANGUAGES)
    .exclude(['en'])
    .optional()
    .describe('in which it was written, as `contentSha256` covers it; absent: English'),
  programVersion: z.string(),
  result: z
    .strictObject({
      specimenId: rowId,
      options: z.looseObject({}),
      values: keptValuesDocument,
      methodVersion: z.string(),
    })
    .nullable()
    .describe('what this pull gave when it was issued'),
  signatures: z.array(documentSignature),
});

export const documentAudit = z.strictObject({
  auditId: rowId,
  wallMs,
  what: z.string(),
  subject: z.string(),
  subjectId: z.int(),
  detail: z.string().describe('JSON text, with the hashes of the rows that were put in'),
  previousHash: sha256,
  hash: sha256.describe(
    'over the bytes of previousHash and the JSON text of [wallMs, what, subject, subjectId, detail]',
  ),
});

/** Everything that the archive says of a pull in rows of its own. */
export const saidOfPull = z.strictObject({
  archive: documentArchive,
  record: documentRecord,
  specimens: z.array(documentSpecimen).describe('its specimen and every correction of it, the first first'),
  instruments: z.array(documentInstrument).describe('that it was made with, from the register'),
  sets: z.array(documentSet.omit({ verdict: true })),
  certificates: z.array(documentCertificate),
  audit: z.array(documentAudit),
});
export type SaidOfPull = z.infer<typeof saidOfPull>;
