/** Waits for something to hold. The bound is for a test that has gone wrong; no test measures time with it. */
export async function until(
  holds: () => boolean | Promise<boolean>,
  what: string,
  limitMs = 60_000,
): Promise<void> {
  const endMs = performance.now() + limitMs;
  while (!(await holds())) {
    if (performance.now() > endMs) throw new Error(`It did not come: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
}
