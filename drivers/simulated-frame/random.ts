/** Seeded noise, so that a simulated pull repeats to the byte. */

/** Uniform numbers in [0, 1): a 32-bit counter through an integer mixing function. */
export function uniformRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Normally distributed numbers, mean 0 and standard deviation 1 (Box and Muller's transform). */
export function normalRandom(seed: number): () => number {
  const uniform = uniformRandom(seed);
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}
