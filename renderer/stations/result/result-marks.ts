/** Marks and construction lines of a kept pull, from its record and its evaluation. */
import type { KeptPull } from '../../../core/contract/pull-requests.ts';
import { breakTakenBack } from '../../../core/pull/effective-marks.ts';
import type { Evaluation } from '../../../core/results/evaluation.ts';
import { factorToCore } from '../../../core/quantity/units.ts';
import { displayUnit, loadUnit } from '../../numbers/display-unit.ts';
import type { UnitSystem } from '../../numbers/display-unit.ts';
import type { ConstructionLine, PlotMark } from '../../plot/picture.ts';
import type { CurveColumns } from '../../store/curve-columns.ts';
import type { Words } from '../../words/en.ts';

export function recordMarks(
  kept: KeptPull,
  evaluation: Evaluation | null,
  columns: CurveColumns,
  words: Words,
): PlotMark[] {
  const text = words.plot;
  const marks: PlotMark[] = [];
  if (kept.triggerSeq !== null) marks.push({ sign: 'start', reading: kept.triggerSeq, label: '' });
  const found = evaluation?.marks ?? {};
  const upper = found.upperYield;
  if (upper !== undefined) marks.push({ sign: 'start', reading: upper, label: text.upperYield });
  if (found.lowerYield !== undefined && found.lowerYield !== upper)
    marks.push({ sign: 'start', reading: found.lowerYield, label: text.lowerYield });
  // Where there is a yield point its own two words say it; a third beside them would only crowd them.
  if (found.proof !== undefined)
    marks.push({ sign: 'start', reading: found.proof, label: upper === undefined ? text.yield : '' });
  const peak = found.maximumForce ?? columns.peakIndex;
  if (peak >= 0) marks.push({ sign: 'peak', reading: peak, label: text.peak });
  const fracture = found.fracture ?? (kept.breakSeq === null ? undefined : Math.max(0, kept.breakSeq - 1));
  if (fracture !== undefined && !breakTakenBack(kept.marks))
    marks.push({ sign: 'break', reading: fracture, label: text.break });
  return marks;
}

/** How far past the proof stress its offset line is drawn, as part of it. */
const OFFSET_LINE_BEYOND = 1.12;

/** The offset line of each proof strength on a load–extension plot; none without slope, section and length. */
export function offsetLines(
  evaluation: Evaluation | null,
  columns: CurveColumns,
  plannedForceN: number,
  units: UnitSystem,
  words: Words,
): ConstructionLine[] {
  const { slope, strain, areaMm2, proofs = [] } = evaluation ?? {};
  if (slope === undefined || strain?.channel !== 'extension' || areaMm2 === undefined) return [];
  const loadPer = factorToCore(loadUnit(Math.max(plannedForceN, columns.extent('force')?.max ?? 0), units));
  const lengthPer = factorToCore(displayUnit('length', units));
  return proofs.map(({ offsetPercent, stressMpa }) => {
    const foot = slope.footStrain + offsetPercent / 100;
    const topMpa = stressMpa * OFFSET_LINE_BEYOND;
    return {
      from: [(foot * strain.lengthMm) / lengthPer, 0],
      to: [((foot + topMpa / slope.slopeMpa) * strain.lengthMm) / lengthPer, (topMpa * areaMm2) / loadPer],
      label: words.plot.offset(String(offsetPercent)),
    };
  });
}
