/**
 * The last step of an evaluation: the rounded value by the named rule and the uncertainty beside each result, and
 * the shop's arithmetic beside Rm. The unrounded values are left as they are.
 */
import type { Specimen } from '../specimen/specimen.ts';
import type { Area, AreaOptions } from './area.ts';
import { areaLines } from './area-uncertainty.ts';
import { elongationUncertainty, reductionUncertainty } from './ductility-uncertainty.ts';
import type { ElasticSlope, ProofFact, StrainSource } from './evaluation.ts';
import type { TotalExtensionFact } from './extension-under-load.ts';
import { type MeasuringSystems, forceLines } from './force-uncertainty.ts';
import { type ReductionOptions, finalSection } from './reduction-of-area.ts';
import type { Result, ResultUncertainty } from './result.ts';
import { type RoundingRuleName, type UnitSystem, withRounding } from './rounding.ts';
import { roundedStrength, shopStrength } from './shop-area.ts';
import { measuredInInches } from './specimen-findings.ts';
import { slopeUncertainty } from './slope-uncertainty.ts';
import { proofUncertainty, strengthUncertainty, totalExtensionUncertainty } from './strength-uncertainty.ts';
import { combinedUncertainty } from './uncertainty.ts';

export interface ReportInput {
  readonly results: readonly Result[];
  readonly specimen: Specimen | null;
  readonly area?: Area;
  readonly slope?: ElasticSlope;
  readonly proofs: readonly ProofFact[];
  readonly totals: readonly TotalExtensionFact[];
  readonly strain?: StrainSource;
  /** Without it ISO 6892-1, or ASTM E8/E8M (1) for a specimen measured in inches. */
  readonly rounding?: RoundingRuleName;
  readonly areaOptions?: AreaOptions & ReductionOptions;
  readonly measuring?: MeasuringSystems;
}

/** The results with their reported values and uncertainties; order and unrounded values are kept. */
export function reported(input: ReportInput): Result[] {
  const system: UnitSystem = input.specimen !== null && measuredInInches(input.specimen) ? 'US' : 'SI';
  const rule = input.rounding ?? (system === 'US' ? 'e8-1' : 'iso-6892-1');
  const lines =
    input.specimen === null || input.area === undefined ? null : areaLines(input.specimen, input.areaOptions);
  return input.results.map((result) => {
    const uncertainty = result.uncertainty ?? uncertaintyOf(result, input, lines);
    const rounded = withRounding(result, rule, system);
    return withShopArithmetic(uncertainty === null ? rounded : { ...rounded, uncertainty }, input);
  });
}

/** "63 351 psi on the area as rounded" beside Rm, as it stands on the shop's slip of paper. */
function withShopArithmetic(result: Result, { area, results }: ReportInput): Result {
  const force = results.find((r) => r.symbol === 'Fm');
  if (result.symbol !== 'Rm' || area === undefined || force === undefined) return result;
  const shop = shopStrength(force.value, area.shop);
  return {
    ...result,
    rounded: [...result.rounded, roundedStrength(shop)],
    working: { ...result.working, steps: [...(result.working.steps ?? []), shop.substituted] },
  };
}

type AreaLines = NonNullable<ReturnType<typeof areaLines>>;

/** `lines`: the budget of S0, the same for every result. */
function uncertaintyOf(
  result: Result,
  input: ReportInput,
  lines: AreaLines | null,
): ResultUncertainty | null {
  const { specimen, area, areaOptions = {}, measuring: systems = {} } = input;
  if (result.symbol === 'Fm') return combinedUncertainty(forceLines(result.value, 1, systems));
  if (specimen === null) return null;
  if (result.symbol === 'A') return isFromHalves(result, specimen) ? elongationUncertainty(specimen) : null;
  if (area === undefined || lines === null) return null;
  switch (result.symbol) {
    case 'S0':
      return combinedUncertainty(lines);
    case 'Rm':
    case 'ReH':
    case 'ReL':
      return strengthUncertainty({
        stressMpa: result.value,
        areaMm2: area.areaMm2,
        areaLines: lines,
        systems,
      });
    case 'Z': {
      const final = finalSection(specimen, areaOptions);
      return final === null || 'code' in final
        ? null
        : reductionUncertainty(specimen, { originalMm2: area.areaMm2, finalMm2: final.areaMm2 }, areaOptions);
    }
    case 'mE':
      return input.slope === undefined || input.strain === undefined
        ? null
        : slopeUncertainty({
            slope: input.slope,
            strain: input.strain,
            areaMm2: area.areaMm2,
            areaLines: lines,
            systems,
          });
    default:
      return totalOf(result, input, area, lines) ?? proofOf(result, input, area, lines);
  }
}

function proofOf(
  result: Result,
  { proofs, slope, measuring: systems = {} }: ReportInput,
  area: Area,
  lines: AreaLines,
): ResultUncertainty | null {
  const offset = /^Rp([\d.]+)$/.exec(result.symbol)?.[1];
  const proof = offset === undefined ? undefined : proofs.find((p) => p.offsetPercent === Number(offset));
  if (proof === undefined || slope === undefined) return null;
  return proofUncertainty({
    stressMpa: result.value,
    areaMm2: area.areaMm2,
    areaLines: lines,
    systems,
    slopeMpa: slope.slopeMpa,
    slopeStandardMpa: slope.standardUncertaintyMpa,
    slopeReadings: slope.readings,
    fitMeanStressMpa: slope.meanStressMpa,
    tangentMpa: proof.tangentMpa,
    offsetRatio: proof.offsetPercent / 100,
    scatterMpa: proof.scatterMpa,
    scatterReadings: proof.readings,
  });
}

function totalOf(
  result: Result,
  { totals, slope, strain, measuring: systems = {} }: ReportInput,
  area: Area,
  lines: AreaLines,
): ResultUncertainty | null {
  const total = totals.find((t) => t.symbol === result.symbol);
  if (total === undefined || strain?.channel === 'travel') return null;
  return totalExtensionUncertainty({
    stressMpa: result.value,
    areaMm2: area.areaMm2,
    areaLines: lines,
    systems,
    ...(slope === undefined || !total.fromFoot ? {} : { slope }),
    tangentMpa: total.tangentMpa,
    totalRatio: total.totalPercent / 100,
    scatterMpa: total.scatterMpa,
    scatterReadings: total.readings,
  });
}

/** A from the halves has L0 and Lu in its working; A by intervals and A from an extensometer have other inputs. */
const isFromHalves = (result: Result, specimen: Specimen): boolean =>
  specimen.finalGaugeLength !== undefined && result.working.inputs.some((i) => i.symbol === 'Lu');
