import { signal } from '@preact/signals';
import { expect, it } from 'vitest';
import { forgetSteps, nextTaken, rememberSteps, stepBack } from '../../../renderer/store/taken-back.ts';

it('takes choices of the view that is shown back step by step, and brings them again until something else is chosen', () => {
  const text = signal('');
  const order = signal('newest');
  const elsewhere = signal(0);
  let nowMs = 0;
  const means = { nowMs: () => nowMs, isTyping: () => true };
  const ends = [
    rememberSteps({ search: text, order }, () => true, means),
    rememberSteps({ marked: elsewhere }, () => false, means),
  ];
  try {
    elsewhere.value = 1;
    expect(stepBack('back')).toBeNull();
    // Typed in one go.
    for (const typed of ['H', 'HS', 'HS-1']) text.value = typed;
    nowMs += 5_000;
    order.value = 'strongest';
    expect([nextTaken('back'), nextTaken('forth')]).toEqual(['order', null]);
    expect(stepBack('back')).toBe('order');
    expect([text.value, order.value]).toEqual(['HS-1', 'newest']);
    expect([nextTaken('back'), nextTaken('forth')]).toEqual(['search', 'order']);
    expect(stepBack('back')).toBe('search');
    expect([text.value, order.value]).toEqual(['', 'newest']);
    expect([nextTaken('back'), stepBack('back')]).toEqual([null, null]);
    expect(stepBack('forth')).toBe('search');
    expect(stepBack('forth')).toBe('order');
    expect([text.value, order.value]).toEqual(['HS-1', 'strongest']);
    expect(stepBack('back')).toBe('order');
    nowMs += 5_000;
    text.value = 'HS-2';
    expect(stepBack('forth')).toBeNull();
    expect(elsewhere.value).toBe(1);
  } finally {
    for (const end of ends) end();
  }
});

it('does not go behind what was kept', () => {
  const draft = signal('a');
  const end = rememberSteps({ specimen: draft }, () => true, { nowMs: () => 0, isTyping: () => false });
  try {
    draft.value = 'b';
    forgetSteps(draft);
    expect(stepBack('back')).toBeNull();
    expect(draft.value).toBe('b');
  } finally {
    end();
  }
});

it('takes back what was chosen last, whichever of the groups that are seen it belongs to, and brings it again in turn', () => {
  const columns = signal('few');
  const looks = signal('SI');
  const means = { nowMs: () => 0, isTyping: () => false };
  const ends = [{ theme: looks }, { columns }].map((one) => rememberSteps(one, () => true, means));
  try {
    columns.value = 'many';
    looks.value = 'US';
    columns.value = 'all';
    const seen = (): string => `${columns.value} ${looks.value}`;
    const steps = (direction: 'back' | 'forth'): string[] => {
      const all: string[] = [];
      while (stepBack(direction) !== null) all.push(seen());
      return all;
    };
    expect(steps('back')).toEqual(['many US', 'many SI', 'few SI']);
    expect(steps('forth')).toEqual(['many SI', 'many US', 'all US']);
  } finally {
    for (const end of ends) end();
  }
});
