import { describe, expect, it } from 'vitest';
import type { Answer, EventOf } from '../../../core/contract/index.ts';
import { FollowedPull } from '../../../renderer/store/followed-pull.ts';
import { block } from './reading-block.ts';

/** A recorder that holds readings of pull 1 and gives out at most `atOnce` of them in one answer. */
class HeldReadings {
  loadN: number[] = [];
  basis = 1;
  asked = 0;
  failing = false;
  readonly #atOnce: number;

  constructor(atOnce = 100) {
    this.#atOnce = atOnce;
  }

  readonly request = (name: string, payload: unknown): Promise<Answer<never>> => {
    expect(name).toBe('pull.readings');
    this.asked++;
    const { fromSeq } = payload as { fromSeq: number };
    const answer = this.failing
      ? { ok: false as const, fault: { code: 'no-answer', sentence: 'The recorder is away.' } }
      : {
          ok: true as const,
          value: {
            pullId: 1,
            basis: this.basis,
            total: this.loadN.length,
            columns: block(fromSeq, this.loadN.slice(fromSeq, fromSeq + this.#atOnce)),
          },
        };
    return Promise.resolve(answer as Answer<never>);
  };

  event(firstSeq: number, count: number): EventOf<'readings'> {
    return {
      pullId: 1,
      basis: this.basis,
      missedFromSeq: null,
      columns: block(firstSeq, this.loadN.slice(firstSeq, firstSeq + count)),
    };
  }
}

const settled = () => new Promise((resolve) => setTimeout(resolve, 5));
const upTo = (n: number) => Array.from({ length: n }, (_, i) => i * 10);
const follow = (held: HeldReadings) => new FollowedPull({ request: held.request }, 1, () => undefined);

describe('following a pull', () => {
  it('takes live blocks without asking', () => {
    const held = new HeldReadings();
    held.loadN = upTo(6);
    const pull = follow(held);
    pull.take(held.event(0, 4));
    pull.take(held.event(4, 2));
    expect(pull.columns.length).toBe(6);
    expect(held.asked).toBe(0);
  });

  it('asks for what was recorded before the page was loaded, in as many answers as it takes', async () => {
    const held = new HeldReadings(100);
    held.loadN = upTo(250);
    const pull = follow(held);
    await pull.catchUp();
    expect(pull.columns.length).toBe(250);
    expect(pull.columns.value('force', 249)).toBe(2_490);
  });

  it('asks for a range that it was too slow for, and misses nothing', async () => {
    const held = new HeldReadings();
    held.loadN = upTo(40);
    const pull = follow(held);
    pull.take(held.event(0, 10));
    pull.take(held.event(30, 10));
    await settled();
    expect(pull.columns.length).toBe(40);
    expect(pull.columns.value('force', 15)).toBe(150);
  });

  it('goes on asking for what arrived while it was catching up', async () => {
    const held = new HeldReadings(20);
    held.loadN = upTo(60);
    const pull = follow(held);
    const caughtUp = pull.catchUp();
    held.loadN = upTo(65);
    pull.take(held.event(60, 5));
    await caughtUp;
    expect(pull.columns.length).toBe(65);
  });

  it('does not ask without an end of a record that grows at every answer', async () => {
    const held = new HeldReadings(20);
    held.loadN = upTo(60);
    const pull = follow(held);
    const { request } = held;
    const growing = new FollowedPull(
      {
        request: (name: string, payload: unknown) => {
          const before = held.loadN.length;
          held.loadN = upTo(before + 5);
          growing.take(held.event(before, 5));
          return request(name, payload);
        },
      },
      1,
      () => undefined,
    );
    await growing.catchUp();
    // Four answers up to the 65 that were there at the first; the rest came by itself.
    expect([held.asked, growing.columns.length]).toEqual([4, 80]);
    expect(growing.columns.value('force', 79)).toBe(790);
    await pull.catchUp();
    expect(pull.columns.length).toBe(80);
  });

  it('starts over when the zero was changed, since every value is converted otherwise then', async () => {
    const held = new HeldReadings();
    held.loadN = upTo(10);
    const pull = follow(held);
    await pull.catchUp();
    held.basis = 2;
    held.loadN = upTo(12).map((v) => v - 4);
    pull.take(held.event(10, 2));
    await settled();
    expect(pull.columns.length).toBe(12);
    expect(pull.columns.value('force', 3)).toBe(26);
  });

  it('keeps what it has when the recorder does not answer, says so, and goes on when it does', async () => {
    const held = new HeldReadings();
    held.loadN = upTo(10);
    const pull = follow(held);
    await pull.catchUp();
    held.failing = true;
    held.loadN = upTo(20);
    await pull.catchUp();
    expect(pull.fault?.sentence).toBe('The recorder is away.');
    expect(pull.columns.length).toBe(10);
    held.failing = false;
    await pull.catchUp();
    expect(pull.fault).toBeNull();
    expect(pull.columns.length).toBe(20);
  });

  it('takes nothing of another pull, and nothing after it was closed', async () => {
    const held = new HeldReadings();
    held.loadN = upTo(4);
    const pull = follow(held);
    pull.take({ ...held.event(0, 4), pullId: 2 });
    expect(pull.columns.length).toBe(0);
    pull.close();
    pull.take(held.event(0, 4));
    await pull.catchUp();
    expect(pull.columns.length).toBe(0);
  });
});
