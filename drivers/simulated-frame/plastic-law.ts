/**
 * Engineering stress over engineering plastic strain, with the largest load in closed form.
 *
 * True stress σ and true plastic strain ε give the engineering values by constancy of volume:
 * e = exp(ε) − 1, s = σ·exp(−ε). The load is largest where dσ/dε = σ (Considère's construction), as any textbook
 * of plasticity derives it:
 *   Swift σ = K(ε0 + ε)^n:           ε_u = n − ε0
 *   Voce  σ = σ0 + Q(1 − e^(−bε)):   e^(−bε_u) = (σ0 + Q) / (Q(1 + b))
 */
import type { Plasticity } from './scenario.ts';

export interface PlasticLaw {
  /** Stress at which the first plastic strain appears. */
  readonly firstYieldMpa: number;
  /** Engineering stress at an engineering plastic strain between 0 and the uniform one. */
  readonly stressMpa: (plasticStrain: number) => number;
  /** Engineering plastic strain at the largest load. */
  readonly uniformPlasticStrain: number;
  readonly largestStressMpa: number;
  /** Least stress of the plateau; null where it yields continuously. */
  readonly lowerYieldMpa: number | null;
}

/** The upper yield point has fallen to the plateau within this part of the plateau. */
const DROP_SHARE = 1 / 40;

/** Throws a RangeError for constants that never reach a largest load above the first yield. */
export function plasticLaw(plasticity: Plasticity): PlasticLaw {
  return plasticity.kind === 'yield-point' ? yieldPointLaw(plasticity) : voceLaw(plasticity);
}

function yieldPointLaw(constants: Extract<Plasticity, { kind: 'yield-point' }>): PlasticLaw {
  const {
    upperYieldMpa,
    lowerYieldMpa,
    plateauStrain,
    strengthCoefficientMpa: k,
    hardeningExponent: n,
  } = constants;
  const plateauTrue = Math.log1p(plateauStrain);
  // ε0 so that the hardening begins at the end of the plateau with the plateau's stress.
  const epsilon0 = ((lowerYieldMpa * (1 + plateauStrain)) / k) ** (1 / n) - plateauTrue;
  const uniformTrue = n - epsilon0;
  if (!(uniformTrue > plateauTrue) || epsilon0 + plateauTrue <= 0)
    throw new RangeError('with these constants the specimen does not harden beyond its plateau');
  const hardening = (plasticStrain: number): number =>
    (k * (epsilon0 + Math.log1p(plasticStrain)) ** n) / (1 + plasticStrain);
  const uniformPlasticStrain = Math.expm1(uniformTrue);
  return {
    firstYieldMpa: upperYieldMpa,
    stressMpa: (plasticStrain) =>
      plasticStrain <= plateauStrain
        ? lowerYieldMpa +
          (upperYieldMpa - lowerYieldMpa) * Math.exp(-plasticStrain / (plateauStrain * DROP_SHARE))
        : hardening(plasticStrain),
    uniformPlasticStrain,
    largestStressMpa: Math.max(upperYieldMpa, k * n ** n * Math.exp(-uniformTrue)),
    lowerYieldMpa,
  };
}

function voceLaw({
  yieldMpa,
  hardeningMpa,
  hardeningRate,
}: Extract<Plasticity, { kind: 'continuous' }>): PlasticLaw {
  const rest = (yieldMpa + hardeningMpa) / (hardeningMpa * (1 + hardeningRate));
  if (!(rest < 1)) throw new RangeError('with these constants the specimen necks as soon as it yields');
  const uniformTrue = -Math.log(rest) / hardeningRate;
  const stressMpa = (plasticStrain: number): number =>
    (yieldMpa + hardeningMpa * (1 - Math.exp(-hardeningRate * Math.log1p(plasticStrain)))) /
    (1 + plasticStrain);
  const uniformPlasticStrain = Math.expm1(uniformTrue);
  return {
    firstYieldMpa: yieldMpa,
    stressMpa,
    uniformPlasticStrain,
    largestStressMpa: (yieldMpa + hardeningMpa * (1 - rest)) * Math.exp(-uniformTrue),
    lowerYieldMpa: null,
  };
}
