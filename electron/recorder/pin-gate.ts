/** PINs: salted scrypt, compared in constant time, a few tries in a row and then a pause. */
import { randomBytes, scrypt, timingSafeEqual } from 'node:crypto';
import type { PinHash, PersonWithPin } from '../../core/archive/people-store.ts';
import { RequestRefused } from './request-refused.ts';

/** A mistyped PIN or two are common; ten thousand PINs of four digits then take weeks of pauses. */
export const PIN_TRIES_MAX = 5;
export const PIN_PAUSE_MS = 60_000;
const SALT_BYTES = 16;
const HASH_BYTES = 32;
/** 32 MiB and about a tenth of a second each. */
const SCRYPT = { N: 32_768, r: 8, p: 1, maxmem: 64 * 1_048_576 } as const;

const hashed = (pin: string, salt: Uint8Array): Promise<Uint8Array> =>
  new Promise((settle, fail) => {
    scrypt(pin.normalize('NFKC'), salt, HASH_BYTES, SCRYPT, (error, key) => {
      if (error === null) settle(key);
      else fail(error);
    });
  });

export async function hashPin(pin: string): Promise<PinHash> {
  const salt = randomBytes(SALT_BYTES);
  return { salt, hash: await hashed(pin, salt) };
}

export class PinGate {
  readonly #nowMs: () => number;
  readonly #tries = new Map<number, { count: number; untilMs: number }>();

  constructor(nowMs: () => number = () => performance.now()) {
    this.#nowMs = nowMs;
  }

  /** True where a PIN was asked for and given rightly; false where none is asked for. Throws a RequestRefused. */
  async pass({ person, pin: kept }: PersonWithPin, given: string | undefined): Promise<boolean> {
    if (kept === null) return false;
    if (given === undefined)
      throw new RequestRefused(
        'pin-missing',
        `${person.name} signs with a PIN here; give it. Nothing was done.`,
        'pin',
      );
    const before = this.#tries.get(person.personId) ?? { count: 0, untilMs: 0 };
    const waitMs = before.untilMs - this.#nowMs();
    if (waitMs > 0)
      throw new RequestRefused(
        'pin-pause',
        `After ${String(PIN_TRIES_MAX)} wrong PINs none is taken for ${String(Math.ceil(waitMs / 1000))} s more. Nothing was done.`,
        'pin',
      );
    // Counted before it is looked at, so that many at once gain nothing.
    const count = before.count + 1;
    const pauses = count >= PIN_TRIES_MAX;
    this.#tries.set(person.personId, {
      count: pauses ? 0 : count,
      untilMs: pauses ? this.#nowMs() + PIN_PAUSE_MS : 0,
    });
    if (!timingSafeEqual(await hashed(given, kept.salt), kept.hash))
      throw new RequestRefused('pin-wrong', 'That is not the PIN. Nothing was done.', 'pin');
    this.#tries.delete(person.personId);
    return true;
  }
}

/** One for the process: a reconnected client gains no tries. */
export const pinGate = new PinGate();
