/** Texts of the verification worksheet of an extensometer, in English. */
export const enExtension = {
  lead: 'Displacements applied by a reference (calibrator, gauge blocks), and what the extensometer indicated, in two series or more. The limits of ISO 9513 and ASTM E83 are from memory: check them against your own copy.',
  gaugeLength: 'Nominal gauge length',
  measuredGaugeLength: 'Gauge length as measured',
  measuredHint: 'between the knife edges; without it its error is in no class',
  applied: 'Displacement applied',
  strain: 'strain error',
  waits: 'Enter gauge length, resolution and a whole line; errors and class appear beside it.',
  gaugeError: (percent: string) => `Error of the gauge length: ${percent} %`,
  stated: (standard: string, held: string) => `${standard}: class ${held}`,
  none: (standard: string) =>
    `${standard}: no class is stated (two series and five displacements at least, each within a class)`,
};
