/** One evaluation of one curve: composition only, each result has a file of its own. */
import type { Curve } from '../curve/curve.ts';
import type { Specimen } from '../specimen/specimen.ts';
import { type AreaOutcome, area, areaFacts } from './area.ts';
import { trueAtMaximum, yieldRatio } from './derived-findings.ts';
import { energyFindings } from './energy.ts';
import { type EvaluatedRecord, evaluatedRecord } from './evaluated-record.ts';
import {
  type Evaluation,
  type EvaluationMarks,
  type EvaluationOptions,
  METHOD_VERSION,
  type ProofFact,
} from './evaluation.ts';
import { extensionAtFracture, extensionAtMaximum } from './extension-findings.ts';
import { type TotalExtensionFact, extensionUnderLoad } from './extension-under-load.ts';
import { type Finding, finiteOrWithheld, readingNumber } from './finding.ts';
import { resolutionChecks } from './instrument-resolution.ts';
import { hardeningFindings } from './hardening.ts';
import { type Maximum, maximumFindings, maximumOf } from './peak.ts';
import { printedPeak } from './printed-peak.ts';
import { type ProofStrength, offsetSymbol, proofStrength } from './proof-strength.ts';
import { type RecordColumns, recordColumns } from './record-columns.ts';
import { reported } from './reported.ts';
import { recordRemarks } from './record-remarks.ts';
import { refusedEvaluation } from './refused-evaluation.ts';
import { specimenFindings } from './specimen-findings.ts';
import { elasticSlope, slopeFinding } from './slope-finding.ts';
import { speedInput, speedStages } from './speed-stages.ts';
import { testingSpeed } from './testing-speed.ts';
import { unusableRecord } from './unusable-record.ts';
import { usableColumns } from './usable-columns.ts';
import { yieldFindings } from './yield-findings.ts';

const OFFSETS_PERCENT = [0.2] as const;
const TOTAL_EXTENSIONS_PERCENT = [0.5] as const;

/**
 * Evaluates a curve with what was measured on the specimen. Pure; never throws on a curve or on options that came from
 * outside; every symbol that can't be given is in `withheld` with a sentence that says why. Options or
 * sizes that can't be evaluated by withhold everything (codes `option-wrong`, `specimen-wrong`).
 */
export function evaluate(
  curve: Curve,
  /** null: a curve without its specimen (stress and strain from a file); what needs the specimen is withheld. */
  specimen: Specimen | null,
  options: EvaluationOptions = {},
): Evaluation {
  const refused = refusedEvaluation(specimen, options);
  if (refused !== null) return refused;
  const section = specimen === null ? null : area(specimen.geometry, options);
  const areaMm2 = section?.ok === true ? section.area.areaMm2 : undefined;
  const fromSpecimen = specimenFindings(specimen, section, options);
  const { forceN, peakForceN } = curve;
  const showsPeak = forceN === undefined && peakForceN !== undefined;
  const loaded = showsPeak ? { ...curve, forceN: peakForceN } : curve;
  const columns = recordColumns(loaded, specimen, areaMm2, options);
  const halves = fromSpecimen.some((f) => f.given && f.result.symbol === 'A');
  const measured: MeasuredRecord = showsPeak
    ? { ok: false, ...printedPeak(columns) }
    : measuredRecord(columns, options, halves);
  if (!measured.ok)
    return handOut({
      findings: [...measured.findings, ...fromSpecimen],
      columns,
      specimen,
      section,
      options,
      remarks: [...columns.corrected, ...markOutside(columns, options), ...measured.remarks],
      marks: {},
      proofs: [],
      totals: [],
    });

  const { record } = measured;
  const maximum = maximumOf(record);
  const offsets = options.offsetsPercent ?? OFFSETS_PERCENT;
  const proofs = offsets.map((offset) => ({ offset, ...proofStrength(record, offset) }));
  const totals = (options.extensionsUnderLoadPercent ?? TOTAL_EXTENSIONS_PERCENT).map((total) =>
    extensionUnderLoad(record, total),
  );
  const slope = elasticSlope(record);
  const findings: Finding[] = [
    ...maximumFindings(record, maximum),
    ...yieldFindings(record),
    ...proofs.map((p) => p.finding),
    ...totals.map((t) => t.finding),
    slopeFinding(record, slope),
    ...extensionAtFracture(record, halves),
    ...extensionAtMaximum(record, maximum),
    ...energyFindings(record, maximum, curve.gaps),
    ...hardeningFindings(record, maximum, options),
  ];
  const firstOffset = offsets[0];
  findings.push(
    ...trueAtMaximum(findings),
    ...yieldRatio(findings, firstOffset === undefined ? null : offsetSymbol(firstOffset)),
    ...fromSpecimen,
  );
  return handOut({
    findings,
    columns,
    specimen,
    section,
    options,
    remarks: [...columns.corrected, ...markOutside(columns, options), ...recordRemarks(record, curve)],
    marks: marksOf(record, maximum, proofs),
    proofs: proofs.flatMap((p) => proofFact(record, p)),
    totals: totals.flatMap(({ fact }) => (fact === undefined ? [] : [fact])),
    speed: testingSpeed({
      ...speedInput(record, curve),
      stages: speedStages(record, maximum.index, proofs[0]?.crossing?.index),
      ...(specimen?.parallelLengthMm === undefined ? {} : { parallelLengthMm: specimen.parallelLengthMm }),
    }),
    ...(slope === null ? {} : { slope, zeroStrain: record.zeroStrain }),
  });
}

type MeasuredRecord =
  | { readonly ok: true; readonly record: EvaluatedRecord }
  | { readonly ok: false; readonly findings: readonly Finding[]; readonly remarks: readonly string[] };

/** The record as it counts: up to a marked break, spikes set aside; or why nothing can be taken from it. */
function measuredRecord(
  columns: RecordColumns,
  options: EvaluationOptions,
  halvesMeasured: boolean,
): MeasuredRecord {
  const usable = usableColumns(columns, markedIndex(columns, options));
  const unusable = unusableRecord(columns, usable, options, halvesMeasured);
  if (unusable !== null) return { ok: false, ...unusable };
  if (usable === null) throw new Error('a record without load is unusable');
  return { ok: true, record: evaluatedRecord(usable, options) };
}

/** The marked break as a reading of the record; null where there is no mark, or none that is in the record. */
function markedIndex({ length }: RecordColumns, { fractureIndex }: EvaluationOptions): number | null {
  return fractureIndex === undefined || fractureIndex >= length ? null : fractureIndex;
}

function markOutside({ length }: RecordColumns, { fractureIndex }: EvaluationOptions): string[] {
  return fractureIndex === undefined || fractureIndex < length
    ? []
    : [
        `The break is marked at reading ${readingNumber(fractureIndex)}, and the record has ${String(length)} readings; the mark is left out.`,
      ];
}

function marksOf(
  record: EvaluatedRecord,
  maximum: Maximum,
  proofs: readonly ProofStrength[],
): EvaluationMarks {
  const { yielding, end, trust } = record;
  const proof = proofs[0]?.crossing?.index;
  return {
    loadingStart: record.startIndex,
    maximumForce: maximum.index,
    ...(yielding?.present === true
      ? { upperYield: yielding.point.upperIndex, lowerYield: yielding.point.lowerIndex }
      : {}),
    ...(proof === undefined ? {} : { proof }),
    ...(end.kind === 'collapse' || end.kind === 'run-out' || end.kind === 'marked'
      ? { fracture: end.index }
      : {}),
    ...(trust.trouble === undefined ? {} : { extensionTrustedUntil: trust.until }),
  };
}

function proofFact(
  { line }: EvaluatedRecord,
  { offset, crossing }: ProofStrength & { readonly offset: number },
): ProofFact[] {
  if (crossing === undefined || line === null) return [];
  // The crossing knows the slope over plastic strain; over total strain the elastic part is in series with it.
  const { tangentMpa: plastic } = crossing;
  const { slope } = line.fit;
  return [
    {
      offsetPercent: offset,
      stressMpa: crossing.stressMpa,
      tangentMpa: (plastic * slope) / (plastic + slope),
      scatterMpa: crossing.scatterMpa,
      readings: crossing.readings,
      index: crossing.index,
    },
  ];
}

interface HandOut extends Pick<
  Evaluation,
  'marks' | 'remarks' | 'proofs' | 'slope' | 'zeroStrain' | 'speed'
> {
  readonly findings: readonly Finding[];
  readonly columns: RecordColumns;
  readonly specimen: Specimen | null;
  readonly section: AreaOutcome | null;
  readonly options: EvaluationOptions;
  readonly totals: readonly TotalExtensionFact[];
}

function handOut({
  findings: found,
  columns,
  specimen,
  section,
  options,
  totals,
  ...facts
}: HandOut): Evaluation {
  const findings = found.map(finiteOrWithheld);
  const counted = section?.ok === true ? section.area : null;
  return {
    results: reported({
      results: findings.flatMap((f) => (f.given ? [f.result] : [])),
      specimen,
      ...(counted === null ? {} : { area: counted }),
      ...(facts.slope === undefined ? {} : { slope: facts.slope }),
      proofs: facts.proofs,
      totals,
      ...(columns.strainSource === undefined ? {} : { strain: columns.strainSource }),
      ...(options.rounding === undefined ? {} : { rounding: options.rounding }),
      ...(options.measuring === undefined ? {} : { measuring: options.measuring }),
      areaOptions: options,
    }),
    withheld: findings.flatMap((f) => (f.given ? [] : [f.withheld])),
    ...facts,
    ...(columns.strainSource === undefined ? {} : { strain: columns.strainSource }),
    ...(columns.areaMm2 === undefined ? {} : { areaMm2: columns.areaMm2 }),
    ...(counted === null ? {} : { section: areaFacts(counted) }),
    ...(specimen === null ? {} : { resolution: resolutionChecks(specimen) }),
    methodVersion: METHOD_VERSION,
  };
}
