import { describe, expect, it } from 'vitest';
import {
  designationKey,
  fillerDesignationKey,
  findByDesignation,
} from '../../../core/acceptance/designation.ts';
import { materialLimit } from '../../../core/acceptance/material.ts';
import { materialTables } from '../../../core/acceptance/tables.ts';
import { judged, packCalled, refused } from './judging.ts';

function baseMetal(packId: string, text: string): string {
  const found = findByDesignation(packCalled(packId).baseMetals, text, designationKey);
  return found.kind === 'found' ? found.item.id : found.kind;
}

function filler(packId: string, text: string): string {
  const found = findByDesignation(packCalled(packId).fillers, text, fillerDesignationKey);
  return found.kind === 'found' ? found.item.id : found.kind;
}

describe('base metals are understood as people write them', () => {
  it.each([
    ['SA-516-70', 'A516-70'],
    ['SA-516 Gr. 70', 'A516-70'],
    ['ASTM A516 Grade 70', 'A516-70'],
    ['a516gr70', 'A516-70'],
    ['A 516 Gr 70', 'A516-70'],
    ['a36', 'A36'],
    ['SA36', 'A36'],
    ['A572-50', 'A572-50'],
    ['SA-106 Gr. B', 'A106-B'],
    ['A106B', 'A106-B'],
    ['304L', 'A240-304L'],
    ['SA-240 Type 304L', 'A240-304L'],
    ['6061-T6', '6061-T6'],
    ['API 5L Grade X52', 'API-5L-X52'],
  ])('%s is %s', (text, id) => {
    expect(baseMetal('asme-ix', text)).toBe(id);
  });

  it.each([
    ['X52', 'X52'],
    ['x-52', 'X52'],
    ['L360', 'X52'],
    ['API 5L X52', 'X52'],
    ['X52-older', 'X52-older'],
  ])('%s is %s under API 1104', (text, id) => {
    expect(baseMetal('api-1104-20', text)).toBe(id);
  });

  it('a designation that several materials share is refused with the choice', () => {
    expect(
      refused('asme-ix', { baseMetals: ['A500 Gr B'], broke: 'weld-metal', strength: '60 ksi' })[0],
    ).toEqual({
      field: 'baseMetals[0]',
      sentence: 'baseMetals[0]: "A500 Gr B" could be A500-B-round or A500-B-shaped; name one of them.',
    });
  });

  it('an unknown one is no fault but a fact that is missing', () => {
    const verdict = judged('asme-ix', { baseMetals: ['S690QL'], broke: 'weld-metal', strength: '60 ksi' });
    expect(verdict.outcome).toBe('undecided');
    expect(verdict.sentence).toContain('S690QL');
    expect(verdict.missing[0]?.code).toBe('minimum');
  });
});

describe('filler classes', () => {
  it.each([
    ['aws-a5.1', 'e7018', 'E7018'],
    ['aws-a5.1', 'E7018 H4R', 'E7018'],
    ['aws-a5.1', 'E7018-1 H8', 'E7018-1'],
    ['aws-a5.1m', 'E4918', 'E7018'],
    ['aws-a5.18', 'ER70S6', 'ER70S-6'],
    ['aws-a5.20', 'E71T-1C', 'E7XT-1C'],
    ['aws-a5.4', 'E308L-16', 'E308L'],
    ['aws-a5.18', 'ER308L', 'none'],
  ])('%s: %s is %s', (packId, text, id) => {
    expect(filler(packId, text)).toBe(id);
  });
});

describe('figures stay as printed', () => {
  it('the two unit systems are never converted into each other', () => {
    const metal = packCalled('asme-ix').baseMetals.find((m) => m.id === 'A516-70');
    if (metal === undefined) throw new Error('no A516-70');
    expect(materialLimit(metal, 'tensile-strength', 'min', 'US')).toMatchObject({
      text: '70 ksi',
      otherSystem: false,
    });
    expect(materialLimit(metal, 'tensile-strength', 'min', 'SI')).toMatchObject({
      text: '485 MPa',
      otherSystem: false,
    });
  });

  it('484 MPa is above 70 ksi and still short of the 485 MPa that is printed', () => {
    const request = { baseMetals: ['SA-516-70'], broke: 'weld-metal', strength: '484 MPa' } as const;
    expect(judged('asme-ix', request).outcome).toBe('reject');
    expect(judged('asme-ix', { ...request, system: 'US' }).outcome).toBe('accept');
  });

  it('a figure that one system lacks is told when the other has to serve', () => {
    const verdict = judged('aws-d1.2', { baseMetals: ['5083'], broke: 'weld-metal', strength: '280 MPa' });
    expect(verdict.outcome).toBe('accept');
    expect(verdict.limit?.unit).toBe('ksi');
    expect(verdict.remarks.join(' ')).toMatch(/no figure for 5083 in the other unit system/);
    expect(verdict.remarks.join(' ')).toMatch(/from memory/);
  });

  it('a class that specifies no yield asks for none', () => {
    expect(judged('aws-a5.1', { filler: 'E6022', broke: 'weld-metal', strength: '60 ksi' }).outcome).toBe(
      'accept',
    );
  });

  it('ids are used once in each table', () => {
    for (const table of materialTables().values()) {
      const ids = table.materials.map((material) => material.id);
      expect(new Set(ids).size, table.id).toBe(ids.length);
    }
  });
});
