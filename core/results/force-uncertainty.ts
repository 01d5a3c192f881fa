/** What is uncertain about a force: the class of the force-measuring system and the step of its readout. */
import { type UncertaintyInput, rectangular } from './uncertainty.ts';

export const FORCE_CLASSES = ['0.5', '1', '2', '3'] as const;
export type ForceClass = (typeof FORCE_CLASSES)[number];

export const EXTENSOMETER_CLASSES = ['0.5', '1', '2'] as const;
export type ExtensometerClass = (typeof EXTENSOMETER_CLASSES)[number];

/** What is known about the measuring systems. */
export interface MeasuringSystems {
  /** Class by ISO 7500-1; ASTM E4's ±1 % is as wide as class 1. Without it class 1 is taken, and the budget says so. */
  readonly readoutClass?: ForceClass;
  /** Expanded uncertainty (k = 2) of the force from a certificate, %; used instead of the class. */
  readonly readoutUncertaintyPercent?: number;
  /** Step of the force readout, N. */
  readonly readoutResolutionN?: number;
  /** Class by ISO 9513. Without it class 1 is taken, and the budget says so. */
  readonly extensometerClass?: ExtensometerClass;
}

/** Lines for a force in N; `sensitivity` is ∂result/∂force. */
export function forceLines(
  forceN: number,
  sensitivity: number,
  systems: MeasuringSystems,
): UncertaintyInput[] {
  const { readoutClass, readoutUncertaintyPercent, readoutResolutionN } = systems;
  const main: UncertaintyInput =
    readoutUncertaintyPercent === undefined
      ? {
          source: `force-measuring system, class ${readoutClass ?? '1'} of ISO 7500-1${readoutClass === undefined ? ' (assumed: ISO 6892-1 asks for class 1, ASTM E4 for ±1 %)' : ''}`,
          standard: rectangular((Number(readoutClass ?? '1') / 100) * Math.abs(forceN)),
          unit: 'N',
          sensitivity,
          distribution: 'rectangular',
        }
      : {
          source: `force-measuring system, ${String(readoutUncertaintyPercent)} % (k = 2) from its certificate`,
          standard: (readoutUncertaintyPercent / 200) * Math.abs(forceN),
          unit: 'N',
          sensitivity,
          distribution: 'normal',
        };
  return [
    main,
    ...(readoutResolutionN === undefined
      ? []
      : [
          {
            source: 'step of the force readout',
            standard: rectangular(readoutResolutionN / 2),
            unit: 'N',
            sensitivity,
            distribution: 'rectangular',
          } as const,
        ]),
  ];
}
