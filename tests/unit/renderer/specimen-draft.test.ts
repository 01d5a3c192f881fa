import { beforeEach, describe, expect, it } from 'vitest';
import type { KeptSpecimen } from '../../../core/contract/specimen-requests.ts';
import {
  changeDraft,
  changeEntries,
  draft,
  draftArea,
  draftAsFile,
  draftIsBlank,
  draftIsKept,
  entryFault,
  followCorrection,
  leaveCorrection,
  leftDraft,
  markKept,
  newDraft,
  readDraft,
  takeBackDraft,
  takeUp,
  withUnit,
} from '../../../renderer/store/specimen-draft.ts';

beforeEach(() => {
  newDraft();
  changeDraft({ kind: 'flat' });
});

describe('a specimen as it is being entered', () => {
  it('shows its area as soon as the section is measured, identity or not, in mixed units', () => {
    expect(draftArea.value).toBeNull();
    changeEntries('width', ['12.7 mm', '0.5 in', '1/2 in']);
    changeEntries('thickness', ['6.35 mm', '']);
    const outcome = draftArea.value;
    expect(outcome?.ok).toBe(true);
    // 12.7 mm × 6.35 mm, by hand.
    if (outcome?.ok === true) expect(outcome.area.areaMm2).toBeCloseTo(80.645, 9);
  });

  it('leaves blank entries out of the record', () => {
    changeDraft({ id: ' T-1 ' });
    changeEntries('width', ['', '12 mm', ' ']);
    changeEntries('thickness', ['6 mm']);
    expect(draftAsFile(draft.value)).toEqual({
      id: 'T-1',
      geometry: { kind: 'flat', width: ['12 mm'], thickness: ['6 mm'] },
    });
  });

  it('keeps what was measured when the shape is changed and changed back', () => {
    changeEntries('width', ['12 mm']);
    changeDraft({ kind: 'round' });
    changeEntries('diameter', ['8 mm']);
    changeDraft({ kind: 'flat' });
    expect(draftAsFile(draft.value)).toMatchObject({ geometry: { width: ['12 mm'] } });
  });

  it('is measured, also after a specimen without sizes was taken up: its form does not pass on', () => {
    takeUp({
      specimenId: 7,
      specimen: { id: 'from a file', geometry: { kind: 'unmeasured' } },
      savedWallMs: 0,
    } as KeptSpecimen);
    expect(draft.value.kind).toBe('unmeasured');
    newDraft();
    expect(draft.value.kind).toBe('flat');
  });

  it('is told apart from what was kept as soon as a value changes, and not before', () => {
    changeDraft({ id: 'T-1' });
    changeEntries('width', ['12 mm']);
    changeEntries('thickness', ['6 mm']);
    expect(draftIsKept.value).toBe(false);
    markKept(7);
    expect(draftIsKept.value).toBe(true);
    changeEntries('width', ['12.1 mm']);
    expect(draftIsKept.value).toBe(false);
    expect(draft.value.specimenId).toBe(7);
  });

  it('is as it was kept when it is taken up again', () => {
    takeUp({
      specimenId: 3,
      specimen: {
        id: 'R-2',
        geometry: { kind: 'round', diameter: ['0.505 in', '0.504 in'] },
        gaugeLength: '2 in',
      },
      savedWallMs: 0,
      by: null,
      supersedes: null,
      supersededBy: null,
      reason: null,
    });
    expect(draftIsKept.value).toBe(true);
    expect(draftAsFile(draft.value)).toMatchObject({ gaugeLength: ['2 in'] });
  });

  it('is as it was kept when its correction is left, and what was typed can be taken back', () => {
    takeUp({
      specimenId: 3,
      specimen: {
        id: 'F-1',
        geometry: { kind: 'flat', width: ['12.5 mm'], thickness: '6 mm' },
        finalGaugeLength: ['61 mm'],
      },
      savedWallMs: 0,
      by: null,
      supersedes: null,
      supersededBy: null,
      reason: null,
    });
    const before = draft.value;
    changeDraft({ notes: 'bent' });
    expect(draftIsKept.value).toBe(false);
    leaveCorrection();
    expect(draftIsKept.value).toBe(true);
    expect(draft.value).toEqual(before);
    takeBackDraft();
    expect(draft.value.notes).toBe('bent');
  });

  it('keeps what was measured after the break when something else is corrected here', () => {
    const specimen = {
      id: 'F-3',
      geometry: { kind: 'flat' as const, width: ['12.5 mm'], thickness: ['6 mm'] },
      gaugeLength: ['50 mm'],
    };
    const kept = { savedWallMs: 0, by: null, supersededBy: null, reason: null };
    takeUp({ ...kept, specimenId: 3, supersedes: null, specimen });
    changeDraft({ notes: 'not kept yet' });
    followCorrection(3, {
      ...kept,
      specimenId: 4,
      supersedes: 3,
      specimen: { ...specimen, finalGaugeLength: ['61 mm'], distanceToNearestMark: '20 mm' },
    });
    expect(draft.value.specimenId).toBe(4);
    expect(draftIsKept.value).toBe(false);
    expect(draftAsFile(draft.value)).toEqual({
      ...specimen,
      notes: 'not kept yet',
      finalGaugeLength: ['61 mm'],
      distanceToNearestMark: '20 mm',
    });
    newDraft();
    expect(draftAsFile(draft.value)).not.toHaveProperty('finalGaugeLength');
  });

  it('is blank until something is entered', () => {
    expect(draftIsBlank.value).toBe(true);
    changeEntries('width', ['12']);
    expect(draftIsBlank.value).toBe(false);
  });

  it('says that a wall too thick for its tube can not be', () => {
    changeDraft({ id: 'P-1', kind: 'tube' });
    changeEntries('outerDiameter', ['20 mm']);
    changeEntries('wall', ['11 mm']);
    const read = readDraft.value;
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.faults[0]?.field).toBe('geometry.wall');
  });
});

describe('what was typed and not kept', () => {
  const type = (id: string): void => {
    changeDraft({ id });
    changeEntries('width', ['12 mm']);
    changeEntries('thickness', ['6 mm']);
  };

  it('can be taken back after another specimen was begun, and what stood there meanwhile after it', () => {
    type('TYPED-1');
    newDraft();
    expect(leftDraft.value?.id).toBe('TYPED-1');
    type('TYPED-2');
    takeBackDraft();
    expect([draft.value.id, leftDraft.value?.id]).toEqual(['TYPED-1', 'TYPED-2']);
    takeBackDraft();
    expect(draft.value.id).toBe('TYPED-2');
  });

  it('is only what was not kept: neither a kept specimen nor a blank form is offered', () => {
    leftDraft.value = null;
    type('KEPT-1');
    markKept(7);
    newDraft();
    newDraft();
    expect(leftDraft.value).toBeNull();
  });
});

describe('a number typed without a unit', () => {
  it('gets the unit that the form shows, so that the record says it', () => {
    expect(withUnit('12.7', 'length', 'SI')).toBe('12.7 mm');
    expect(withUnit('1-1/2', 'length', 'US')).toBe('1-1/2 in');
  });

  it('is left as it is where it has one, or is no number', () => {
    expect(withUnit('0.5 in', 'length', 'SI')).toBe('0.5 in');
    expect(withUnit('wide', 'length', 'SI')).toBe('wide');
    expect(withUnit('  ', 'length', 'SI')).toBe('');
  });
});

describe('one entry', () => {
  it.each([
    ['0 mm', 'zero'],
    ['-3 mm', 'negative'],
    ['12 furlongs', 'unknown unit'],
    ['12', 'no unit'],
    ['12 kN', 'no length'],
    ['a bit', 'no number'],
  ])('%s (%s) gets a sentence', (text) => {
    expect(entryFault(text, 'length')).toMatch(/\w.*\./);
  });

  it('that is blank or good gets none', () => {
    expect(entryFault(' ', 'length')).toBeNull();
    expect(entryFault('1/2 in', 'length')).toBeNull();
  });
});
