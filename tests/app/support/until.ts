/** Looked at again after a part of the time that has been waited for, so that a long wait leaves the processor to what is waited for. */
const PART_WAITED = 1 / 8;
const AGAIN_MS_MIN = 20;
const AGAIN_MS_MAX = 200;

/** Waits for something to hold. The bound is for a test that has gone wrong; no test measures time with it. */
export async function until(
  holds: () => boolean | Promise<boolean>,
  what: string,
  limitMs = 60_000,
): Promise<void> {
  const begunMs = performance.now();
  while (!(await holds())) {
    const waitedMs = performance.now() - begunMs;
    if (waitedMs > limitMs) throw new Error(`It did not come: ${what}`);
    const againMs = Math.min(AGAIN_MS_MAX, Math.max(AGAIN_MS_MIN, waitedMs * PART_WAITED));
    await new Promise((resolve) => setTimeout(resolve, againMs));
  }
}
