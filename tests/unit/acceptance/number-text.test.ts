import { describe, expect, it } from 'vitest';
import { groupedWithin } from '../../../core/acceptance/number-text.ts';

describe('numbers within a text', () => {
  it.each([
    ['ReL = 3386.1 lbf / 0.078812 in² = 42964.7 psi', 'ReL = 3386.1 lbf / 0.078812 in² = 42\u202f964.7 psi'],
    ['σ = 42964,71234 psi', 'σ = 42\u202f964,71234 psi'],
    ['−1234567 N', '−1\u202f234\u202f567 N'],
    ['reading 30630 of 100000', 'reading 30\u202f630 of 100\u202f000'],
    ['heat K12345, 0.00012345', 'heat K12345, 0.00012345'],
    ['9999 psi', '9999 psi'],
  ])('%s', (text, shown) => {
    expect(groupedWithin(text)).toBe(shown);
  });
});
