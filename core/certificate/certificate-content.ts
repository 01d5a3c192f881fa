/**
 * What a certificate says, as data: page, PDF, CSV and JSON are made from this and from nothing else, so that they
 * can't differ. Everything comes from the archive, so the same certificate can be made again years later.
 */
import type { MarkSign } from '../drawing/mark-sign.ts';
import type { Outcome } from '../acceptance/verdict.ts';
import type { PaperLanguage } from '../words/paper-words.ts';

export const CERTIFICATE_SCHEMA = 'gaugemark.certificate/1';

/** One line of a list: what it is, and what was recorded. Text only; it may hold anything a person typed. */
export interface Fact {
  readonly label: string;
  readonly value: string;
}

export interface ResultRow {
  readonly symbol: string;
  readonly name: string;
  /** In SI and in US customary units; null where the quantity has no unit. */
  readonly si: string;
  readonly us: string | null;
  /** As the named rule rounds it. */
  readonly reported: { readonly text: string; readonly rule: string } | null;
  /** Expanded, in the units of `si` and `us`. */
  readonly uncertainty: {
    readonly si: string;
    readonly us: string | null;
    readonly coverageFactor: string;
  } | null;
  /** Unrounded, for machines. */
  readonly value: number;
  readonly unit: string;
  readonly remarks: readonly string[];
}

export interface VerdictContent {
  /** What counts: the last override, else the rules. */
  readonly outcome: Outcome;
  readonly outcomeOfRules: Outcome;
  readonly sentence: string;
  readonly clause: string | null;
  readonly clauseOrigin: string | null;
  readonly questionable: readonly string[];
  readonly missing: readonly string[];
  /** Each compared value: measured, rounded, limit, where the limit comes from, margin. */
  readonly comparisons: readonly Fact[];
  readonly otherReadings: readonly string[];
  readonly otherPacks: readonly string[];
  readonly decision: readonly Fact[];
  readonly remarks: readonly string[];
}

/** The curve as corner points in the units of the labels, in the order of time, with what the drawing marks. */
export interface CurveContent {
  readonly xLabel: string;
  readonly yLabel: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** Points before which the pen is lifted: a gap in the record. */
  readonly lifts: readonly number[];
  readonly marks: readonly {
    readonly x: number;
    readonly y: number;
    readonly words: string;
    readonly sign: MarkSign;
  }[];
  readonly lines: readonly {
    readonly x1: number;
    readonly y1: number;
    readonly x2: number;
    readonly y2: number;
    readonly words: string;
  }[];
  readonly note: string | null;
  /** Force over time, where the extension ends before the maximum; else null. */
  readonly overTime: CurveContent | null;
}

export interface PhotoContent {
  /** In the archive. */
  readonly photoId: number;
  readonly sha256: string;
  readonly mediaType: string;
  readonly caption: string;
}

export interface SpecimenContent {
  readonly name: string;
  readonly retestOf: string | null;
  readonly voided: string | null;
  /** Where no frame sent the readings: simulated, replayed or imported, as a word and in a sentence. */
  readonly readings: { readonly mark: string; readonly notice: string } | null;
  readonly dimensions: readonly Fact[];
  readonly results: readonly ResultRow[];
  readonly withheld: readonly { readonly symbol: string; readonly name: string; readonly reason: string }[];
  readonly fracture: readonly Fact[];
  readonly photos: readonly PhotoContent[];
  /** Null for a typed-in pull, or where nothing was recorded. */
  readonly curve: CurveContent | null;
  readonly speed: readonly string[];
  readonly equipment: readonly Fact[];
  readonly record: readonly Fact[];
  readonly verdict: VerdictContent | null;
}

export interface SignatureContent {
  readonly printedName: string;
  /** ISO 8601 with offset. */
  readonly at: string;
  /** "tested by", "reviewed by", "approved by". */
  readonly meaning: string;
  /** Whether the person's PIN was given with it. */
  readonly byPin?: boolean;
  /** Of the content that was signed, without number and signatures. */
  readonly contentSha256?: string;
}

export interface CertificateContent {
  readonly schema: typeof CERTIFICATE_SCHEMA;
  readonly kind: 'set' | 'specimen';
  /** Of everything in it that the program wrote; absent where that is English, as in all from before there was a choice. */
  readonly language?: Exclude<PaperLanguage, 'en'>;
  readonly title: string;
  /** Unique, on every page. */
  readonly number: string;
  readonly laboratory: { readonly name: string; readonly lines: readonly string[] };
  /** What stands under the title of every page: readings that are evidence of nothing. */
  readonly notices: readonly string[];
  /** The same in a word, beside the verdict on the set; null where every specimen was pulled. */
  readonly noticeMark: string | null;
  readonly issue: readonly Fact[];
  readonly set: readonly Fact[];
  readonly rules: readonly Fact[];
  /** Null on the certificate of one specimen. */
  readonly setVerdict: {
    readonly outcome: Outcome;
    readonly sentence: string;
    readonly remarks: readonly string[];
  } | null;
  readonly specimens: readonly SpecimenContent[];
  /** Everything that departs from the plain way: doubts, overrides, retests, voids, gaps. */
  readonly deviations: readonly string[];
  readonly signatures: readonly SignatureContent[];
  readonly cautions: readonly string[];
  readonly endMark: string;
}

export const languageOf = ({ language }: Pick<CertificateContent, 'language'>): PaperLanguage =>
  language ?? 'en';
