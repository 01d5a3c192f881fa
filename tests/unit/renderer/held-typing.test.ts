/** What is typed and not kept is held by its subject, and let go of. */
import { type Signal, computed, signal } from '@preact/signals';
import { afterEach, describe, expect, it } from 'vitest';
import type { Bridge } from '../../../core/contract/bridge.ts';
import {
  HELD_MAX,
  HeldTyping,
  holdsTyping,
  tellTyping,
  typedNotKept,
} from '../../../renderer/store/held-typing.ts';
import { archiveGeneration, archivePath } from '../../../renderer/store/session-store.ts';

const begin = () => ({ reason: signal('') });
const HOME = '/pulls/home.gaugemark';
archivePath.value = HOME;
afterEach(() => {
  archivePath.value = HOME;
});

interface Changed {
  readonly path: string;
  readonly tour: boolean;
}

/** Says nothing but that another archive is used. */
function tellingBridge(): { bridge: Bridge; changeTo: (event: Changed) => void } {
  const heard = new Set<(event: Changed) => void>();
  const bridge = {
    platform: 'linux',
    request: () => Promise.resolve({ ok: true, value: {} }),
    on: (_name: string, callback: (event: Changed) => void) => {
      heard.add(callback);
      return () => heard.delete(callback);
    },
  } as unknown as Bridge;
  return { bridge, changeTo: (event) => heard.forEach((callback) => callback(event)) };
}

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
    archivePath.value = '/pulls/other.gaugemark';
    expect(held.of(1, begin).reason.value).toBe('');
    archivePath.value = HOME;
    // Much came into the archive at once: an import, a merge.
    archiveGeneration.value++;
    expect(held.of(1, begin).reason.value).toBe('slipped');
    held.letGo(1);
  });

  it('is found again behind the tour, and given up when another archive is gone over to', () => {
    const held = new HeldTyping<{ reason: Signal<string> }>('setReason');
    const { bridge, changeTo } = tellingBridge();
    const stop = tellTyping(bridge);
    const goTo = (path: string, tour: boolean): void => {
      archivePath.value = path;
      changeTo({ path, tour });
    };
    try {
      held.of(1, begin).reason.value = 'before the tour';
      goTo('/tour/pulls.gaugemark', true);
      held.of(1, begin).reason.value = 'in the tour';
      // Closing asks about it from there too.
      goTo(HOME, false);
      expect(held.of(1, begin).reason.value).toBe('before the tour');
      expect(typedNotKept.value).toContain('setReason');
      goTo('/pulls/other.gaugemark', false);
      expect(typedNotKept.value).not.toContain('setReason');
      goTo(HOME, false);
      expect(held.of(1, begin).reason.value).toBe('');
    } finally {
      stop();
    }
  });

  it('is gone when it was kept or given up', () => {
    const held = new HeldTyping<{ reason: Signal<string> }>('reason');
    held.of(1, begin).reason.value = 'slipped';
    held.letGo(1);
    expect(held.of(1, begin).reason.value).toBe('');
  });

  it('is told of one form by its subject, so that its own button says what is let go', () => {
    const held = new HeldTyping<{ reason: Signal<string> }>('reason');
    expect(held.isTyped(1)).toBe(false);
    const { reason } = held.of(1, begin);
    held.of(2, begin);
    const follows = computed(() => held.isTyped(1));
    expect(follows.value).toBe(false);
    reason.value = 'slipped';
    expect([follows.value, held.isTyped(2)]).toEqual([true, false]);
    reason.value = '';
    expect(follows.value).toBe(false);
    reason.value = 'slipped';
    held.letGo(1);
    expect(follows.value).toBe(false);
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
  it('in which forms something is typed, and no more once it is as it was, kept or given up', () => {
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
    held.letGo(1);
  });

  it('of what is not held by a form, and not of what a form fills in itself', () => {
    const entered = signal('');
    holdsTyping(
      'typedPull',
      () => entered.value !== '',
      () => undefined,
    );
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
