/** What is typed and not kept is held by its subject, and let go of. */
import { type Signal, signal } from '@preact/signals';
import { afterEach, describe, expect, it } from 'vitest';
import { HELD_MAX, HeldTyping, holdsTyping, typedNotKept } from '../../../renderer/store/held-typing.ts';
import { archiveGeneration } from '../../../renderer/store/session-store.ts';

const begin = () => ({ reason: signal('') });
const generation = archiveGeneration.value;
afterEach(() => {
  archiveGeneration.value = generation;
});

describe('what is typed', () => {
  it('is found again for its own subject, and for no other', () => {
    const held = new HeldTyping<{ reason: Signal<string> }>('reason');
    held.of(1, begin).reason.value = 'slipped';
    expect(held.of(1, begin).reason.value).toBe('slipped');
    expect(held.of(2, begin).reason.value).toBe('');
  });

  it('belongs to its archive: the same number means another pull in another one', () => {
    const held = new HeldTyping<{ reason: Signal<string> }>('reason');
    held.of(1, begin).reason.value = 'slipped';
    archiveGeneration.value++;
    expect(held.of(1, begin).reason.value).toBe('');
  });

  it('is gone when it was kept or given up', () => {
    const held = new HeldTyping<{ reason: Signal<string> }>('reason');
    held.of(1, begin).reason.value = 'slipped';
    held.letGo(1);
    expect(held.of(1, begin).reason.value).toBe('');
  });

  it('is bounded: the form that was opened longest ago goes first', () => {
    const held = new HeldTyping<{ reason: Signal<string> }>('reason');
    for (let subject = 0; subject < HELD_MAX; subject++) held.of(subject, begin).reason.value = 'typed';
    held.of(0, begin);
    held.of('one more', begin);
    expect(held.of(0, begin).reason.value).toBe('typed');
    expect(held.of(1, begin).reason.value).toBe('');
  });

  it('is not the first to go where another form was only opened', () => {
    const held = new HeldTyping<{ reason: Signal<string> }>('reason');
    held.of('typed', begin).reason.value = 'slipped';
    for (let subject = 0; subject < HELD_MAX; subject++) held.of(subject, begin);
    expect(held.of('typed', begin).reason.value).toBe('slipped');
    held.letGo('typed');
  });
});

describe('closing is told', () => {
  it('in which forms something is typed, and no more once it is as it was, kept, given up or of another archive', () => {
    const held = new HeldTyping<{ reason: Signal<string> }>('person');
    expect(typedNotKept.value).not.toContain('person');
    const { reason } = held.of(1, () => ({ reason: signal('as it is kept') }));
    expect(typedNotKept.value).not.toContain('person');
    reason.value = 'another';
    held.of(2, begin).reason.value = 'one more';
    expect(typedNotKept.value.filter((name) => name === 'person')).toHaveLength(1);
    held.letGo(2);
    expect(typedNotKept.value).toContain('person');
    reason.value = 'as it is kept';
    expect(typedNotKept.value).not.toContain('person');
    reason.value = 'another';
    archiveGeneration.value++;
    expect(typedNotKept.value).not.toContain('person');
  });

  it('of what is not held by a form, and not of what a form fills in itself', () => {
    const entered = signal('');
    holdsTyping('typedPull', () => entered.value !== '');
    expect(typedNotKept.value).not.toContain('typedPull');
    entered.value = '42';
    expect(typedNotKept.value).toContain('typedPull');
    entered.value = '';
    const held = new HeldTyping<{ name: Signal<string>; changed: Signal<boolean> }>(
      'laboratory',
      ({ changed }) => changed.value,
    );
    const { name, changed } = held.of('all', () => ({ name: signal(''), changed: signal(false) }));
    name.value = 'as the archive has it';
    expect(typedNotKept.value).not.toContain('laboratory');
    changed.value = true;
    expect(typedNotKept.value).toContain('laboratory');
    held.letGo('all');
  });
});
