import { describe, expect, it } from 'vitest';
import { importChoices, importProposal } from '../../../core/exchange/import/proposal-message.ts';
import { proposeImport } from '../../../core/exchange/import/propose-import.ts';

describe('an import proposal between processes', () => {
  it('fits its schema, whatever the file', () => {
    for (const text of [
      'Time [s];Force [kN]\n0;0,5\n0,1;1,25\n',
      'Strain,Stress\n0.1,5\n0.2,6\n',
      'a b c\n1 2 3\n2 3 4\n',
    ]) {
      const outcome = proposeImport(new TextEncoder().encode(text), true);
      if (!outcome.ok) throw new Error(outcome.fault.sentence);
      expect(importProposal.safeParse(JSON.parse(JSON.stringify(outcome.proposal))).error).toBeUndefined();
    }
  });

  it('takes no choice that the import does not know', () => {
    expect(importChoices.safeParse({ delimiter: ';', decimalSign: ',' }).success).toBe(true);
    expect(importChoices.safeParse({ delimiter: ':' }).success).toBe(false);
    expect(importChoices.safeParse({ separator: ';' }).success).toBe(false);
  });
});
