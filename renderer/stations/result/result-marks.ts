/** Marks and construction lines of a kept pull, from its record and its evaluation. */
import type { KeptPull } from '../../../core/contract/pull-requests.ts';
import { type FoundName, foundMarks, offsetLines } from '../../../core/drawing/found-on-curve.ts';
import type { PlotLine } from '../../../core/drawing/plot-input.ts';
import { breakTakenBack } from '../../../core/pull/effective-marks.ts';
import type { Evaluation } from '../../../core/results/evaluation.ts';
import { factorToCore } from '../../../core/quantity/units.ts';
import { displayUnit, loadUnit } from '../../numbers/display-unit.ts';
import type { UnitSystem } from '../../numbers/display-unit.ts';
import { asReported } from '../../numbers/format.ts';
import type { PlotMark } from '../../plot/picture.ts';
import type { CurveColumns } from '../../store/curve-columns.ts';
import { language } from '../../store/view-settings.ts';
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
  const found = foundMarks(evaluation?.marks ?? {});
  const hasYieldPoint = found.some(({ name }) => name === 'upper-yield');
  const isBroken = !breakTakenBack(kept.marks);
  for (const { name, sign, reading } of found)
    if (name !== 'break' || isBroken)
      // Where there is a yield point its own two words say it; a third beside them would only crowd them.
      marks.push({ sign, reading, label: name === 'proof' && hasYieldPoint ? '' : labelOf(name, text) });
  const has = (name: FoundName): boolean => found.some((mark) => mark.name === name);
  if (!has('maximum') && columns.peakIndex >= 0)
    marks.push({ sign: 'peak', reading: columns.peakIndex, label: text.peak });
  if (!has('break') && kept.breakSeq !== null && isBroken)
    marks.push({ sign: 'break', reading: Math.max(0, kept.breakSeq - 1), label: text.fracture });
  return marks;
}

const labelOf = (name: FoundName, text: Words['plot']): string =>
  ({
    'upper-yield': text.upperYield,
    'lower-yield': text.lowerYield,
    proof: text.yield,
    maximum: text.peak,
    break: text.fracture,
  })[name];

/** The offset line of each proof strength on a load–extension plot; none without slope, section and length. */
export function offsetLinesOf(
  evaluation: Evaluation | null,
  columns: CurveColumns,
  plannedForceN: number,
  units: UnitSystem,
  words: Words,
): PlotLine[] {
  const { strain, areaMm2 } = evaluation ?? {};
  if (evaluation === null || strain?.channel !== 'extension' || areaMm2 === undefined) return [];
  const loadPer = factorToCore(loadUnit(Math.max(plannedForceN, columns.extent('force')?.max ?? 0), units));
  return offsetLines(
    evaluation,
    {
      xPerStrain: strain.lengthMm / factorToCore(displayUnit('length', units)),
      yPerMpa: areaMm2 / loadPer,
    },
    (percent) => words.plot.offset(asReported(String(percent), language.value)),
  );
}
