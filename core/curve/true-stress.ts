/**
 * Between engineering and true values, as long as the strain is uniform (up to the maximum force) and the volume
 * stays the same: ε = ln(1 + e), σ = s·(1 + e). Textbook relations; not valid in the neck.
 */

export interface StressStrain {
  readonly stressMpa: Float64Array;
  readonly strainRatio: Float64Array;
}

export function engineeringFromTrue({ stressMpa, strainRatio }: StressStrain): StressStrain {
  return {
    stressMpa: stressMpa.map((stress, i) => stress * Math.exp(-(strainRatio[i] ?? Number.NaN))),
    strainRatio: strainRatio.map((strain) => Math.expm1(strain)),
  };
}

export function trueFromEngineering({ stressMpa, strainRatio }: StressStrain): StressStrain {
  return {
    stressMpa: stressMpa.map((stress, i) => stress * (1 + (strainRatio[i] ?? Number.NaN))),
    strainRatio: strainRatio.map((strain) => Math.log1p(strain)),
  };
}
