/** A verification of an extensometer as it is written down: displacements applied by a reference, and what was indicated. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { type Exact, exactFromDecimal, exactRatio } from '../quantity/exact.ts';
import { typedFigure } from '../quantity/typed-figure.ts';
import { UNITS } from '../quantity/units.ts';
import { type ShapeFault, shapeFault } from '../shape-faults.ts';
import {
  type Figure,
  type ReadStep,
  figureOf,
  readWorksheet,
  shapedWorksheet,
  verificationWorksheet,
} from './worksheet.ts';

export const EXTENSION_UNITS = ['mm', 'µm', 'in', 'mil'] as const;
export type ExtensionUnit = (typeof EXTENSION_UNITS)[number];

export const extensionWorksheet = atFirstUse(() =>
  verificationWorksheet
    .unwrap()
    .omit({ unit: true, capacity: true })
    .extend({
      unit: z.enum(EXTENSION_UNITS),
      /** Nominal, in the unit of the worksheet. */
      gaugeLength: typedFigure,
      /** As measured between the knife edges; the error of the gauge length is not stated without it. */
      measuredGaugeLength: typedFigure.optional(),
    }),
);
export type ExtensionWorksheet = z.output<typeof extensionWorksheet>;

export interface ReadExtensionWorksheet {
  readonly unit: ExtensionUnit;
  /** µm in one unit of the worksheet. */
  readonly unitUm: Exact;
  readonly resolution: Figure;
  readonly gaugeLength: Figure;
  readonly measuredGaugeLength: Figure | null;
  readonly runCount: number;
  readonly steps: readonly ReadStep[];
  /** Indicated after going back, one of each run. */
  readonly zeros: readonly Figure[];
}

export type ExtensionWorksheetOutcome =
  | { readonly ok: true; readonly worksheet: ExtensionWorksheet; readonly read: ReadExtensionWorksheet }
  | { readonly ok: false; readonly faults: readonly ShapeFault[] };

/** Reads a worksheet from outside; says what is wrong, where, what to do. Never throws. */
export function readExtensionWorksheet(input: unknown): ExtensionWorksheetOutcome {
  const checked = shapedWorksheet(extensionWorksheet, input);
  if (!checked.ok) return checked;
  const { worksheet } = checked;
  const { unit, gaugeLength, measuredGaugeLength, ...figures } = worksheet;
  const nominal = figureOf(gaugeLength);
  const measured = measuredGaugeLength === undefined ? null : figureOf(measuredGaugeLength);
  const outcome = readWorksheet({ ...figures, unit: 'N' }, 'displacement');
  if (!outcome.ok) return outcome;
  const wrong = [
    { field: 'gaugeLength', figure: nominal },
    { field: 'measuredGaugeLength', figure: measured },
  ].flatMap(({ field, figure }) =>
    figure === null || figure.exact.compare(0) > 0
      ? []
      : [shapeFault(field, `"${figure.text}" is no gauge length; give it in ${unit}, greater than zero`)],
  );
  if (wrong.length > 0) return { ok: false, faults: wrong };
  const { resolution, runCount, steps, zeros } = outcome.read;
  return {
    ok: true,
    worksheet,
    read: {
      unit,
      unitUm: UNITS[unit].toCore.mul(exactFromDecimal('1000') ?? exactRatio(1000n, 1n)),
      resolution,
      gaugeLength: nominal,
      measuredGaugeLength: measured,
      runCount,
      steps,
      zeros,
    },
  };
}
