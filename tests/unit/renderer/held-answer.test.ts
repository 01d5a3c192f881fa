/** The last answer of the archive: shown while it is asked anew, and never for another archive. */
import { afterEach, describe, expect, it } from 'vitest';
import type { Answer } from '../../../core/contract/index.ts';
import { HeldAnswer } from '../../../renderer/store/held-answer.ts';
import { archiveGeneration } from '../../../renderer/store/session-store.ts';

const generation = archiveGeneration.value;
afterEach(() => {
  archiveGeneration.value = generation;
});

/** A question whose answers come when the test says so. */
function asked(): { held: HeldAnswer<string>; answer: ((given: Answer<string>) => void)[] } {
  const answer: ((given: Answer<string>) => void)[] = [];
  return { held: new HeldAnswer(() => new Promise((resolve) => answer.push(resolve))), answer };
}
const FAULT = { code: 'busy', sentence: 'The archive is busy. Try again.' };

describe('an answer that is held', () => {
  it('is shown until the next one is there, also where that one fails', async () => {
    const { held, answer } = asked();
    expect(held.value.value).toBeNull();
    const first = held.refresh();
    answer[0]?.({ ok: true, value: 'one' });
    expect(await first).toBeNull();
    const second = held.refresh();
    expect(held.value.value).toBe('one');
    answer[1]?.({ ok: false, fault: FAULT });
    expect(await second).toEqual(FAULT);
    expect(held.value.value).toBe('one');
  });

  it('is never of another archive, neither what is held nor what was asked there', async () => {
    const { held, answer } = asked();
    const first = held.refresh();
    answer[0]?.({ ok: true, value: 'of the old one' });
    await first;
    const second = held.refresh();
    archiveGeneration.value++;
    expect(held.value.value).toBeNull();
    answer[1]?.({ ok: true, value: 'of the old one' });
    expect(await second).toBeNull();
    expect(held.value.value).toBeNull();
  });

  it('is the one to the newest question, whichever answer comes last', async () => {
    const { held, answer } = asked();
    const both = [held.refresh(), held.refresh()];
    answer[1]?.({ ok: true, value: 'new' });
    answer[0]?.({ ok: true, value: 'old' });
    await Promise.all(both);
    expect(held.value.value).toBe('new');
  });
});
