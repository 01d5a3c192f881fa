import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { pullCsvLines } from '../../../core/exchange/export/pull-csv.ts';
import { pullCsvMetadata } from '../../../core/exchange/export/pull-csv-metadata.ts';
import { importChoices, importProposal } from '../../../core/exchange/import/proposal-message.ts';
import { proposeImport } from '../../../core/exchange/import/propose-import.ts';
import { blocksOf, pull } from './sample-pull.ts';

describe('the side file of a CSV', () => {
  it('names the columns of the file, in their order, each with what it holds', () => {
    const lines = [...pullCsvLines(pull, blocksOf())].join('\r\n');
    const [header]: string[][] = parse(lines, { comment: '#', comment_no_infix: true });
    const { columns } = pullCsvMetadata(pull, 'pull-7.csv').tableSchema;
    expect(columns.map((c) => c.titles)).toEqual(header);
    // Names in the metadata vocabulary are letters, digits and underscores, and each occurs once.
    expect(new Set(columns.map((c) => c.name)).size).toBe(columns.length);
    for (const { name, 'dc:description': words } of columns) {
      expect(name).toMatch(/^\w+$/);
      expect(words.length).toBeGreaterThan(10);
    }
  });
});

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
