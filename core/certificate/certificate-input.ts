/** What the archive hands in for a certificate. Plain data; nothing here is looked up or worked out again. */
import type { SetVerdict } from '../acceptance/judge-set.ts';
import type { DecidedVerdict } from '../acceptance/override.ts';
import type { DiscontinuityKind } from '../acceptance/fracture-details.ts';
import type { FractureNote } from '../acceptance/fracture.ts';
import type { OptionSource } from '../contract/evaluation-requests.ts';
import type { Evaluation, EvaluationOptions } from '../results/evaluation.ts';
import type { PullInstruments } from '../instruments/pull-instruments.ts';
import type { ReadingsOrigin } from '../pull/readings-origin.ts';
import type { FrozenSet } from '../sets/set-form.ts';
import type { SetMemberForm } from '../sets/set-member.ts';
import type { Specimen } from '../specimen/specimen.ts';
import type { CurveContent, PhotoContent, SignatureContent } from './certificate-content.ts';

export interface EquipmentFacts {
  /** The readout by the name of its profile. */
  readonly forceSystem: string;
  /** As it stood at the start of the pull; null for pulls from before that was kept. */
  readonly instruments: PullInstruments | null;
}

export interface RecordFacts {
  readonly pullId: number;
  /** ISO 8601 with offset. */
  readonly started: string;
  /** Of an imported pull, the day that was stated of it and when: "2019-05-14 (stated at import)". */
  readonly pulledOn?: string;
  readonly operator: string | null;
  readonly readingCount: number;
  readonly gapWords: readonly string[];
  /** Of all raw bytes in order; null for a typed-in pull. */
  readonly rawSha256: string | null;
  /** Version that recorded, and version that evaluated. */
  readonly recordedBy: string;
  readonly evaluatedBy: string;
  readonly typedIn: boolean;
  /** Absent where a frame sent the readings, or a person typed them. */
  readonly origin?: ReadingsOrigin;
  /** Scenario of the simulated frame, or file that was replayed or imported. */
  readonly originName?: string;
}

/** The evaluation that a person kept: by which options, and who, when, why. */
export interface EvaluatedFacts {
  readonly evaluationId: number;
  readonly options: EvaluationOptions;
  readonly sources: readonly OptionSource[];
  /** ISO 8601, UTC. */
  readonly kept: string;
  readonly by: string | null;
  readonly reason: string;
}

export interface CertifiedSpecimen {
  readonly member: SetMemberForm;
  readonly specimen: Specimen;
  readonly evaluation: Evaluation | null;
  /** What a person kept as the evaluation that stands; absent where the pull stands as recorded. */
  readonly evaluated?: EvaluatedFacts;
  /** Of a typed-in pull, as typed. */
  readonly typed?: { readonly strength?: string; readonly yield?: string; readonly elongation?: string };
  readonly fracture: FractureNote;
  readonly fractureRemarks?: string;
  /** As noted beside its place: the mark it ran along, what was seen in it, the base metal that broke. */
  readonly fractureDetails?: {
    readonly mark?: string;
    readonly discontinuities?: readonly {
      readonly kind: DiscontinuityKind;
      readonly size?: string | undefined;
    }[];
    readonly baseMetal?: string;
  };
  readonly fractureNotedBy?: string;
  readonly photos: readonly PhotoContent[];
  readonly curve: CurveContent | null;
  /** Null where nothing was pulled. */
  readonly equipment: EquipmentFacts | null;
  readonly record: RecordFacts | null;
  readonly verdict: DecidedVerdict | null;
}

export interface CertificateInput {
  readonly kind: 'set' | 'specimen';
  readonly number: string;
  readonly laboratory: { readonly name: string; readonly lines: readonly string[] };
  /** ISO 8601 with offset. */
  readonly issued: string;
  /** When it was issued the first time; a later one says that it was made again. */
  readonly firstIssued?: string;
  readonly programVersion: string;
  /** Null for a pull whose specimen is in no set: then no rules judge it. */
  readonly set: FrozenSet | null;
  readonly setVerdict: SetVerdict | null;
  readonly specimens: readonly CertifiedSpecimen[];
  readonly deviations: readonly string[];
  /** What people wrote that stands in `deviations`: names, reasons. */
  readonly written?: readonly string[];
  readonly signatures: readonly SignatureContent[];
}
