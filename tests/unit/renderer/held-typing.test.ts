/** What is typed and not kept is held by its subject, and let go of. */
import { type Signal, signal } from '@preact/signals';
import { afterEach, describe, expect, it } from 'vitest';
import { HELD_MAX, HeldTyping } from '../../../renderer/store/held-typing.ts';
import { archiveGeneration } from '../../../renderer/store/session-store.ts';

const begin = () => ({ reason: signal('') });
const generation = archiveGeneration.value;
afterEach(() => {
  archiveGeneration.value = generation;
});

describe('what is typed', () => {
  it('is found again for its own subject, and for no other', () => {
    const held = new HeldTyping<{ reason: Signal<string> }>();
    held.of(1, begin).reason.value = 'slipped';
    expect(held.of(1, begin).reason.value).toBe('slipped');
    expect(held.of(2, begin).reason.value).toBe('');
  });

  it('belongs to its archive: the same number means another pull in another one', () => {
    const held = new HeldTyping<{ reason: Signal<string> }>();
    held.of(1, begin).reason.value = 'slipped';
    archiveGeneration.value++;
    expect(held.of(1, begin).reason.value).toBe('');
  });

  it('is gone when it was kept or given up', () => {
    const held = new HeldTyping<{ reason: Signal<string> }>();
    held.of(1, begin).reason.value = 'slipped';
    held.letGo(1);
    expect(held.of(1, begin).reason.value).toBe('');
  });

  it('is bounded: the form that was opened longest ago goes first', () => {
    const held = new HeldTyping<{ reason: Signal<string> }>();
    for (let subject = 0; subject < HELD_MAX; subject++) held.of(subject, begin).reason.value = 'typed';
    held.of(0, begin);
    held.of('one more', begin);
    expect(held.of(0, begin).reason.value).toBe('typed');
    expect(held.of(1, begin).reason.value).toBe('');
  });
});
