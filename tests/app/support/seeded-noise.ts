/** Noise that is the same on every machine: from −0.5 to 0.5, evenly. */
export function seededNoise(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 4_294_967_296 - 0.5;
  };
}
