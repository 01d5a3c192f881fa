/** Random draws that repeat: a seed in, the same numbers out. */

export interface Draws {
  /** Anywhere within ± the half width, rectangular. */
  readonly within: (halfWidth: number) => number;
  readonly normal: (mean: number, standard: number) => number;
}

/** Weyl sequence with a mixing step (32 bit); normal draws by Box and Muller. */
export function seededRandom(seed: number): Draws {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return ((z ^ (z >>> 16)) >>> 0) / 2 ** 32;
  };
  return {
    within: (halfWidth) => (2 * uniform() - 1) * halfWidth,
    normal: (mean, standard) =>
      mean + standard * Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
  };
}
