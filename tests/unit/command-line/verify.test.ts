/** `gaugemark verify`: the worksheet alone. */
import { describe, expect, it } from 'vitest';
import { folderOfFiles, ran } from './in-process.ts';

const file = folderOfFiles();
const SHEET = {
  unit: 'kN',
  resolution: '0.01',
  zeros: ['0.00', '0.01', '0.00'],
  steps: ['20', '40', '60', '80', '100'].map((applied) => ({
    applied,
    indicated: [`${applied}.02`, `${applied}.05`, `${applied}.03`],
    descending: { indicated: `${applied}.08` },
  })),
};

describe('gaugemark verify', () => {
  it('prints the table, the class and the ranges', async () => {
    const { code, out } = await ran('verify', file('sheet.json', JSON.stringify(SHEET)));
    expect(code).toBe(0);
    expect(out).toMatch(/^ *20 +0\.167 +0\.150 +0\.250 +0\.050 +0\.5 +0\.250 +0\.150 +within$/m);
    expect(out).toContain('ISO 7500-1: class 0.5 over the whole range.');
    expect(out).toContain('within ±1 % from 20 to 100 kN, which is the whole range');
    expect(out).toContain('200 × 0.01 kN = 2 kN');
    expect(out).not.toContain('Note:');
  });

  it('prints the working on request, and the whole as JSON', async () => {
    const path = file('sheet.json', JSON.stringify(SHEET));
    expect((await ran('verify', path, '--working')).out).toContain('b = 0.250 % − 0.100 % = 0.150 %');
    const { verification } = JSON.parse((await ran('verify', path, '--json')).out) as {
      verification: { iso: { class: string }; steps: unknown[] };
    };
    expect(verification.iso.class).toBe('0.5');
    expect(verification.steps).toHaveLength(5);
  });

  it('says in one sentence which figure is wrong', async () => {
    const wrong = { ...SHEET, steps: [{ applied: '20', indicated: ['20.0 kN', '20', '20'] }] };
    const { code, err } = await ran('verify', file('wrong.json', JSON.stringify(wrong)));
    expect(code).toBe(2);
    expect(err).toMatch(/wrong\.json: steps\[0\]\.indicated\[0\]: write one number as it was read/);
    expect((await ran('verify', '/nowhere.json')).code).toBe(2);
  });
});
