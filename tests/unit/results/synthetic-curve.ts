/**
 * Curves whose results are known from the law that they are made from, with the disturbances of a real record:
 * noise, resolution, sampling, toe, slack, unloading loop. Seeded, so that a failure repeats.
 */
import type { Curve } from '../../../core/curve/curve.ts';

/** Small, fast, well-spread generator (mulberry32), good enough to disturb a curve. */
export function randomNumbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Standard normal deviates by the polar method. */
export function normalDeviates(random: () => number): () => number {
  return () => {
    for (;;) {
      const u = 2 * random() - 1;
      const v = 2 * random() - 1;
      const s = u * u + v * v;
      if (s > 0 && s < 1) return u * Math.sqrt((-2 * Math.log(s)) / s);
    }
  };
}

export interface Law {
  readonly name: string;
  /** Stress over strain, engineering, from zero to the fracture strain; strains in the order of the pull. */
  readonly points: (readings: number) => { strain: Float64Array; stress: Float64Array };
  readonly known: {
    readonly slopeMpa: number;
    readonly proofMpa: number;
    readonly strengthMpa?: number;
    /** Ag and A in percent. */
    readonly uniformPercent?: number;
    readonly elongationPercent?: number;
    readonly upperYieldMpa?: number;
    readonly lowerYieldMpa?: number;
    readonly yieldPointExtensionPercent?: number;
  };
}

const evenly = (from: number, to: number, count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));

/** Straight to the yield, straight after it. */
export function bilinear({ E = 200_000, Y = 400, H = 2_000, end = 0.03 } = {}): Law {
  const at = (e: number): number => (e * E <= Y ? e * E : Y + H * (e - Y / E));
  // E·(e − p) = Y + H·(e − Y/E)
  const p = 0.002;
  const e = (Y - (H * Y) / E + E * p) / (E - H);
  return {
    name: 'bilinear',
    points: (n) => {
      const strain = evenly(0, end, n);
      return { strain, stress: strain.map(at) };
    },
    known: { slopeMpa: E, proofMpa: E * (e - p) },
  };
}

/** ε = σ/E + 0.002·(σ/R)ⁿ: the 0.2 % proof strength is R by definition. Driven in stress below, in strain above. */
export function rambergOsgood({ E = 70_000, R = 250, n = 12, end = 0.04 } = {}): Law {
  const strainAt = (s: number): number => s / E + 0.002 * (s / R) ** n;
  const stressAt = (e: number): number => {
    let low = 0;
    let high = Math.min(e * E, R * (e / 0.002) ** (1 / n)) + 1;
    for (let k = 0; k < 60; k++) {
      const middle = (low + high) / 2;
      if (strainAt(middle) < e) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  return {
    name: 'Ramberg–Osgood',
    points: (count) => {
      const strain = evenly(0, end, count);
      return { strain, stress: strain.map(stressAt) };
    },
    known: { slopeMpa: E, proofMpa: R },
  };
}

/**
 * Voce in true values, σ = σ0 + Q·(1 − exp(−b·εp)), ε = εp + σ/E, written as engineering stress and strain; the
 * maximum follows from Considère's condition dσ/dε = σ. Beyond it the law goes on to the fracture.
 */
export function voce({ E = 200_000, S = 500, Q = 250, b = 18, end = 0.16 } = {}): Law {
  const sigma = (ep: number): number => S + Q * (1 - Math.exp(-b * ep));
  const slope = (ep: number): number => {
    const h = Q * b * Math.exp(-b * ep);
    return h / (1 + h / E);
  };
  const epAtMaximum = bisect((ep) => slope(ep) - sigma(ep), 0, 1);
  const engineering = (ep: number): { e: number; s: number } => {
    const t = sigma(ep);
    const e = Math.expm1(ep + t / E);
    return { e, s: t / (1 + e) };
  };
  const yieldStrain = Math.expm1(S / E);
  // Elastic part in true values as well, so that the slope at the origin is E.
  const elastic = (e: number): number => (E * Math.log1p(e)) / (1 + e);
  const top = engineering(epAtMaximum);
  const epAtEnd = bisect((ep) => end - engineering(ep).e, 0, 2);
  const stressAt = (e: number): number =>
    e <= yieldStrain ? elastic(e) : engineering(bisect((ep) => e - engineering(ep).e, 0, 2)).s;
  return {
    name: 'Voce',
    points: (count) => {
      const strain = evenly(0, end, count);
      return { strain, stress: strain.map(stressAt) };
    },
    known: {
      slopeMpa: E,
      proofMpa: stressAt(bisect((e) => 0.002 - (e - stressAt(e) / E), yieldStrain, yieldStrain + 0.01)),
      strengthMpa: top.s,
      uniformPercent: 100 * (top.e - top.s / E),
      elongationPercent: 100 * (end - engineering(epAtEnd).s / E),
    },
  };
}

export interface YieldPointLaw {
  readonly E?: number;
  readonly upper?: number;
  readonly lower?: number;
  /** How far the first transient goes below the lower yield, MPa. */
  readonly transient?: number;
  readonly plateau?: number;
  readonly Q?: number;
  readonly b?: number;
  readonly end?: number;
}

/** Elastic to ReH, a sharp fall with a transient below ReL, a plateau at ReL, then hardening to a maximum, softening. */
export function yieldPointLaw({
  E = 205_000,
  upper = 330,
  lower = 300,
  transient = 6,
  plateau = 0.018,
  Q = 160,
  b = 28,
  end = 0.28,
}: YieldPointLaw = {}): Law {
  const eUpper = upper / E;
  const eFallen = eUpper + 0.0003;
  const eRecovered = eFallen + 0.0008;
  const eHard = eUpper + plateau;
  const eMaximum = 0.18;
  const hardened = (e: number): number => lower + Q * (1 - Math.exp(-b * (e - eHard)));
  const at = (e: number): number => {
    if (e <= eUpper) return E * e;
    if (e <= eFallen) return upper + ((lower - transient - upper) * (e - eUpper)) / (eFallen - eUpper);
    if (e <= eRecovered) return lower - transient + (transient * (e - eFallen)) / (eRecovered - eFallen);
    if (e <= eHard) return lower;
    if (e <= eMaximum) return hardened(e);
    return hardened(eMaximum) * (1 - 4 * (e - eMaximum) ** 2);
  };
  return {
    name: 'yield point',
    points: (n) => {
      const strain = evenly(0, end, n);
      return { strain, stress: strain.map(at) };
    },
    known: {
      slopeMpa: E,
      proofMpa: lower,
      strengthMpa: hardened(eMaximum),
      uniformPercent: 100 * (eMaximum - hardened(eMaximum) / E),
      elongationPercent: 100 * (end - at(end) / E),
      upperYieldMpa: upper,
      lowerYieldMpa: lower,
      yieldPointExtensionPercent: 100 * plateau,
    },
  };
}

function bisect(f: (x: number) => number, from: number, to: number): number {
  let low = from;
  let high = to;
  for (let k = 0; k < 80; k++) {
    const middle = (low + high) / 2;
    if (f(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

export interface Disturbance {
  readonly readings?: number;
  /** Standard deviations. */
  readonly stressNoiseMpa?: number;
  readonly strainNoise?: number;
  /** Steps of the channels. */
  readonly stressStepMpa?: number;
  readonly strainStep?: number;
  /** Extra strain taken up while the grips settle, and the stress over which that dies away. */
  readonly toeStrain?: number;
  readonly toeStressMpa?: number;
  /** Zero of the extension. */
  readonly strainZero?: number;
  /** Readings of slack before the loading. */
  readonly slackReadings?: number;
  /** Stress at which the specimen is unloaded to a tenth and reloaded, and readings of that loop. */
  readonly loopAtMpa?: number;
  readonly loopReadings?: number;
  /** A fall to zero after the last reading. Default true. */
  readonly breaks?: boolean;
  readonly seed?: number;
}

/** A record of the law: columns stress, strain and time at 10 readings per second. */
export function record(law: Law, disturbance: Disturbance = {}): Curve {
  const {
    readings = 3_000,
    stressNoiseMpa = 0,
    strainNoise = 0,
    stressStepMpa = 0,
    strainStep = 0,
    toeStrain = 0,
    toeStressMpa = 20,
    strainZero = 0,
    slackReadings = 0,
    loopAtMpa,
    loopReadings = 60,
    breaks = true,
    seed = 1,
  } = disturbance;
  const normal = normalDeviates(randomNumbers(seed));
  const points = law.points(readings);
  const stress: number[] = Array.from({ length: slackReadings }, () => 0);
  const strain: number[] = Array.from({ length: slackReadings }, () => 0);
  let looped = loopAtMpa === undefined;
  for (let i = 0; i < readings; i++) {
    const s = points.stress[i] ?? 0;
    const e = points.strain[i] ?? 0;
    stress.push(s);
    strain.push(e);
    if (looped || loopAtMpa === undefined || s < loopAtMpa) continue;
    looped = true;
    for (let k = 1; k < loopReadings; k++) {
      const part = 1 - 0.9 * Math.sin((Math.PI * k) / loopReadings);
      stress.push(s * part);
      strain.push(e - (s * (1 - part)) / law.known.slopeMpa);
    }
  }
  const step = (value: number, size: number): number => (size > 0 ? Math.round(value / size) * size : value);
  const stressMpa = Float64Array.from(stress, (s) => step(s + stressNoiseMpa * normal(), stressStepMpa));
  const strainRatio = Float64Array.from(strain, (e, i) =>
    step(
      strainZero + e + toeStrain * (1 - Math.exp(-(stress[i] ?? 0) / toeStressMpa)) + strainNoise * normal(),
      strainStep,
    ),
  );
  const tail = breaks ? 5 : 0;
  const length = stress.length + tail;
  const stressAll = new Float64Array(length);
  const strainAll = new Float64Array(length);
  stressAll.set(stressMpa);
  strainAll.set(strainRatio);
  for (let i = stress.length; i < length; i++) strainAll[i] = strainRatio.at(-1) ?? 0;
  return {
    length,
    timeS: Float64Array.from({ length }, (_, i) => i / 10),
    stressMpa: stressAll,
    strainRatio: strainAll,
  };
}
