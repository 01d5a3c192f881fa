/** Floor and measured in turn, round by round, so that a machine that is busy for a while is busy for both. */

export interface Rounds<T> {
  readonly floor: T[];
  readonly measured: T[];
}

/** Runs both in each round, the order changing from round to round. */
export async function alternate<T>(
  rounds: number,
  work: { readonly floor: () => T | Promise<T>; readonly measured: () => T | Promise<T> },
): Promise<Rounds<T>> {
  const taken: Rounds<T> = { floor: [], measured: [] };
  for (let round = 0; round < rounds; round++) {
    for (const which of round % 2 === 0 ? (['floor', 'measured'] as const) : (['measured', 'floor'] as const))
      taken[which].push(await work[which]());
  }
  return taken;
}

/** Milliseconds that the work takes. */
export function milliseconds(work: () => unknown): number {
  const from = process.hrtime.bigint();
  work();
  return Number(process.hrtime.bigint() - from) / 1e6;
}

/**
 * Milliseconds of processor time that the work takes in this process, helper threads included. For work that waits for
 * nothing: other programs on the machine disturb it far less than the clock on the wall.
 */
export async function processorMilliseconds(work: () => unknown): Promise<number> {
  const before = process.cpuUsage();
  await work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

export const wait = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

export const isLong = process.argv.includes('--long');
