import { signal } from '@preact/signals';
import { expect, it } from 'vitest';
import type { Session } from '../../../core/contract/session.ts';
import { PlanDraft } from '../../../renderer/exchange/plan-draft.ts';
import { changedInSheet } from '../../../renderer/instruments/worksheet-line.ts';
import {
  changeLine,
  changeWorksheet,
  forceSheets,
  worksheetDraft,
} from '../../../renderer/instruments/worksheet-draft.ts';
import { changePlan, plan, thresholdOfUnits } from '../../../renderer/stations/pull/pull-plan.ts';
import { followChoices } from '../../../renderer/store/choices.ts';
import { place } from '../../../renderer/store/place.ts';
import { session } from '../../../renderer/store/session-store.ts';
import {
  changeWithoutStep,
  forgetSteps,
  nextTaken,
  rememberSteps,
  stepBack,
} from '../../../renderer/store/taken-back.ts';
import { changeView } from '../../../renderer/store/view-settings.ts';

it('takes choices of the view that is shown back step by step, and brings them again until something else is chosen', () => {
  const text = signal('');
  const order = signal('newest');
  const elsewhere = signal(0);
  let nowMs = 0;
  const means = { nowMs: () => nowMs, isTyping: () => true };
  const ends = [
    rememberSteps({ search: text, order }, () => true, { means }),
    rememberSteps({ marked: elsewhere }, () => false, { means }),
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
  const end = rememberSteps({ specimen: draft }, () => true, {
    means: { nowMs: () => 0, isTyping: () => false },
  });
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
  const ends = [{ theme: looks }, { columns }].map((one) => rememberSteps(one, () => true, { means }));
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

it('leaves out what only follows from another choice, and keeps what was chosen before it', () => {
  const chosen = signal('a');
  const end = rememberSteps({ evaluation: chosen }, () => true, {
    means: { nowMs: () => 0, isTyping: () => false },
  });
  try {
    chosen.value = 'b';
    changeWithoutStep(chosen, 'b as it is read');
    expect(stepBack('back')).toBe('evaluation');
    expect([chosen.value, nextTaken('back')]).toEqual(['a', null]);
    expect(stepBack('forth')).toBe('evaluation');
    expect(chosen.value).toBe('b as it is read');
  } finally {
    end();
  }
});

it('takes the plan of a pull back rule by rule, while it is open, and units with the threshold that goes with them', () => {
  const ends = [thresholdOfUnits(), followChoices()];
  const before = { plan: plan.value, place: place.value };
  const at = (pull: object | null): void => {
    session.value = { pull } as unknown as Session;
  };
  try {
    at(null);
    place.value = 'pull';
    changeView({ units: 'SI' });
    forgetSteps(plan);
    changePlan({ startByHand: true });
    changePlan({ breakByHand: true });
    changePlan({ speedMethod: 'iso-6892-1-a' });
    const threshold = plan.value.threshold;
    changeView({ units: 'US' });
    expect(plan.value.threshold).not.toBe(threshold);
    // One choice, one step.
    expect([stepBack('back'), plan.value.threshold]).toEqual(['units', threshold]);
    expect([stepBack('back'), plan.value.speedMethod]).toEqual(['speedMethod', before.plan.speedMethod]);
    at({});
    expect(nextTaken('back')).not.toBe('breakRule');
    at(null);
    expect([stepBack('back'), plan.value.breakByHand]).toEqual(['breakRule', false]);
    expect([stepBack('back'), plan.value.startByHand]).toEqual(['startRule', false]);
    expect([stepBack('forth'), plan.value.startByHand]).toEqual(['startRule', true]);
  } finally {
    for (const end of ends) end();
    plan.value = before.plan;
    place.value = before.place;
    session.value = null;
    changeView({ units: 'SI' });
  }
});

it('asks anew how a file is read when what was said of its columns or layout is taken back', () => {
  const asked: object[] = [];
  const said = new PlanDraft((choices) => {
    asked.push(choices);
    return Promise.resolve({ ok: false, fault: { code: 'refused', sentence: 'Not here.' } });
  });
  const { layout, columnsInWords, columns } = said;
  const end = rememberSteps(
    { importLayout: layout, importInWords: columnsInWords, importColumns: columns },
    () => true,
    { means: { nowMs: () => 0, isTyping: () => false }, onTaken: () => void said.look() },
  );
  try {
    said.sayInWords('time_s;force_kN');
    said.chooseLayout({ delimiter: ';' });
    // A layout that makes other columns is one choice, whatever it clears.
    expect(nextTaken('back')).toBe('importLayout');
    stepBack('back');
    expect(nextTaken('back')).toBe('importInWords');
    stepBack('back');
    expect(nextTaken('back')).toBeNull();
    expect(asked).toEqual([
      { columnsText: 'time_s;force_kN' },
      { columnsText: 'time_s;force_kN', delimiter: ';' },
      { columnsText: 'time_s;force_kN' },
      {},
    ]);
  } finally {
    end();
  }
});

it('says of a worksheet whether its unit or its figures are taken back', () => {
  const { draft } = forceSheets.begin('kN');
  forceSheets.show(draft);
  const end = rememberSteps({ worksheet: draft }, () => true, {
    means: { nowMs: () => 0, isTyping: () => false },
    within: changedInSheet,
  });
  try {
    changeLine(0, { applied: '10' });
    changeWorksheet({ unit: 'lbf' });
    expect(stepBack('back')).toBe('worksheetUnit');
    expect(stepBack('back')).toBe('worksheet');
    expect(worksheetDraft.value.lines[0]?.applied).toBe('');
  } finally {
    end();
  }
});
