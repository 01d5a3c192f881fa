/**
 * How fast it is being pulled right now, against the window of a method: for the eye of whoever turns the valve. The
 * check that counts is made from the whole record afterwards (`testing-speed.ts`).
 */
import type { SpeedQuantity, SpeedRule, SpeedStage, SpeedWindow } from './speed-windows.ts';

/** Null what can't be told: no such channel, no section, no length, or not two readings yet. */
export type LiveRates = Readonly<Record<SpeedQuantity, number | null>>;

/** Falling: load or strain goes back, as at a break. */
export type SpeedPlace = 'falling' | 'below' | 'inside' | 'above';

export interface LiveSpeed {
  readonly stage: SpeedStage;
  readonly rule: SpeedRule;
  readonly quantity: SpeedQuantity;
  /** MPa/s for a stress rate, else 1/s; null where it can't be told. */
  readonly rate: number | null;
  /** Null where there is no rate. */
  readonly place: SpeedPlace | null;
}

/** Null where the method says nothing about this stage. */
export function liveSpeed(
  rules: readonly SpeedRule[],
  stage: SpeedStage,
  rates: LiveRates,
): LiveSpeed | null {
  const rule = rules.find((one) => one.stage === stage);
  const [first] = rule?.quantities ?? [];
  if (rule === undefined || first === undefined) return null;
  const quantity = rule.quantities.find((one) => rates[one] !== null) ?? first;
  const rate = rates[quantity];
  return { stage, rule, quantity, rate, place: rate === null ? null : placeOf(rate, rule.windows) };
}

function placeOf(rate: number, windows: readonly SpeedWindow[]): SpeedPlace {
  // Back as fast as the slowest that is asked for: the noise of a frame that stands is no fall.
  if (rate < -Math.min(...windows.map(({ lower, upper }) => lower ?? upper))) return 'falling';
  if (windows.some(({ lower, upper }) => rate >= (lower ?? -Infinity) && rate <= upper)) return 'inside';
  return windows.every(({ upper }) => rate > upper) ? 'above' : 'below';
}

export interface LiveMoment {
  readonly stressMpa: number;
  /** Ratio over the gauge length; null without an extensometer. */
  readonly strain: number | null;
  /** MPa/s, and 1/s over the gauge length. */
  readonly stressRate: number | null;
  readonly strainRate: number | null;
}

/** Grips settle and slack goes out below this: a slope there says nothing. Common practice, no source. */
const SETTLED_MPA = 30;
/** The slope has fallen to this share of the steepest one: it is no longer elastic. Common practice, no source. */
const BENT_SHARE = 0.5;
/** So many moments in a row, so that one noisy rate is no yield. */
const BENT_MOMENTS = 3;
/** Plastic strain behind the yield after which the rest of the pull begins. Common practice, no source. */
const YIELD_STRAIN = 0.02;

/** Tells in which stage a pull probably is, from one moment after another. Never goes back. */
export class StageWatch {
  #stage: SpeedStage = 'elastic';
  #steepest = 0;
  #bent = 0;
  #yieldedAt: number | null = null;

  get stage(): SpeedStage {
    return this.#stage;
  }

  push({ stressMpa, strain, stressRate, strainRate }: LiveMoment): SpeedStage {
    if (this.#stage === 'elastic') this.#lookForYield(stressMpa, strain, stressRate, strainRate);
    else if (this.#yieldedAt !== null && strain !== null && strain - this.#yieldedAt >= YIELD_STRAIN)
      this.#stage = 'to-maximum';
    return this.#stage;
  }

  /** By the slope where there is strain, else by how fast the stress rises while the frame goes on as it went. */
  #lookForYield(
    stressMpa: number,
    strain: number | null,
    stressRate: number | null,
    strainRate: number | null,
  ): void {
    if (stressRate === null || !(stressMpa >= SETTLED_MPA)) return;
    // The frame stands: neither slope nor rate says anything of the metal.
    if (strainRate !== null && !(strainRate > 0)) return;
    const slope = strainRate === null ? stressRate : stressRate / strainRate;
    this.#bent = slope < BENT_SHARE * this.#steepest ? this.#bent + 1 : 0;
    this.#steepest = Math.max(this.#steepest, slope);
    if (this.#bent < BENT_MOMENTS) return;
    this.#stage = 'yield';
    this.#yieldedAt = strain;
  }
}
