/** Keys of every plot's cursor: what they ask for, and how far a walk goes. */
import { describe, expect, it } from 'vitest';
import { cursorKey, walkedTo } from '../../../renderer/plot/plot-keys.ts';

const key = (name: string, held: Partial<Record<'shiftKey' | 'ctrlKey' | 'altKey' | 'metaKey', true>> = {}) =>
  cursorKey({ key: name, shiftKey: false, ctrlKey: false, altKey: false, metaKey: false, ...held });

describe('a key on a plot', () => {
  it('walks by one, with Shift or a page by ten', () => {
    expect(key('ArrowRight')).toEqual({ kind: 'walk', steps: 1 });
    expect(key('ArrowLeft', { shiftKey: true })).toEqual({ kind: 'walk', steps: -10 });
    expect(key('PageUp')).toEqual({ kind: 'walk', steps: 10 });
    expect(key('PageDown', { shiftKey: true })).toEqual({ kind: 'walk', steps: -10 });
  });

  it('stands on a named place, whatever Shift and the lock of capitals make of its letter', () => {
    for (const [name, on] of [
      ['p', 'peak'],
      ['P', 'peak'],
      ['y', 'yield'],
      ['B', 'break'],
      ['Home', 'first'],
      ['End', 'last'],
    ])
      expect(key(name ?? '')).toEqual({ kind: 'stand', on });
    expect(key('Escape')).toEqual({ kind: 'away' });
  });

  it('leaves alone what belongs to the page', () => {
    expect(key('p', { ctrlKey: true })).toBeNull();
    expect(key('ArrowRight', { altKey: true })).toBeNull();
    expect(key('b', { metaKey: true })).toBeNull();
    for (const name of ['q', 'Tab', 'Enter', 'toString', 'constructor']) expect(key(name)).toBeNull();
  });
});

describe('a walk', () => {
  it('begins at an end, and never leaves', () => {
    expect(walkedTo(-1, 1, 5)).toBe(0);
    expect(walkedTo(-1, -10, 5)).toBe(4);
    expect(walkedTo(3, 10, 5)).toBe(4);
    expect(walkedTo(3, -10, 5)).toBe(0);
    expect(walkedTo(2, 1, 5)).toBe(3);
    expect(walkedTo(-1, 1, 0)).toBe(-1);
  });
});
