/** A call into a library that may never answer, raced against a timer. */

export class NoAnswerError extends Error {
  override readonly name = 'NoAnswerError';
}

/**
 * The outcome of `call`, or a NoAnswerError after `limitMs`. What the call brings after that goes to `tooLate`
 * (a handle that must be closed), and its late failure is swallowed: the caller has gone on long ago.
 */
export async function boundedCall<T>(
  what: string,
  limitMs: number,
  call: () => Promise<T>,
  tooLate: (value: T) => void = () => undefined,
): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  let expired = false;
  const limit = new Promise<never>((_, reject) => {
    timer = setTimeout(() => {
      expired = true;
      reject(new NoAnswerError(`${what} gave no answer within ${String(limitMs)} ms`));
    }, limitMs);
  });
  const answer = call();
  answer.then(
    (value) => {
      if (expired) tooLate(value);
    },
    () => undefined,
  );
  try {
    return await Promise.race([answer, limit]);
  } finally {
    clearTimeout(timer);
  }
}

/** A function that takes a node-style callback, as a promise. */
export function answered(call: (callback: (error: Error | null | undefined) => void) => void): Promise<void> {
  return new Promise((resolve, reject) => {
    call((error) => (error === null || error === undefined ? resolve() : reject(error)));
  });
}
