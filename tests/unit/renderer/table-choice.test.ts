/** The columns of a table of results that a person chooses. */
import { expect, it } from 'vitest';
import { USUAL_COLUMNS } from '../../../core/exchange/export/asked-columns.ts';
import { ChosenColumns, columnsOf, tableColumns } from '../../../renderer/exchange/table-choice.ts';

it('are at first the usual ones, but for the archive, which one archive need not name', () => {
  const usual = USUAL_COLUMNS.filter((column) => column.kind !== 'fact' || column.fact !== 'archive');
  expect(columnsOf(tableColumns.now.value)).toEqual(usual);
  expect(tableColumns.isUsual).toBe(true);
});

it('keep their order, whatever was chosen first, and are the usual ones again when asked', () => {
  const chosen = new ChosenColumns('test', { facts: ['verdict', 'specimen'], results: 'all', forms: [] });
  chosen.toggleFact('heat');
  chosen.toggleAll();
  chosen.toggleForm('rounded');
  for (const symbol of ['Fm', 'S0', 'ReH', 'ReL', 'Rp0.2', 'Rt0.5', 'A', 'Ag', 'Agt', 'At'] as const)
    chosen.toggleResult(symbol);
  expect(columnsOf(chosen.now.value)).toEqual([
    { kind: 'fact', fact: 'specimen' },
    { kind: 'fact', fact: 'heat' },
    { kind: 'result', symbol: 'Rm', form: 'rounded' },
    { kind: 'result', symbol: 'Z', form: 'rounded' },
    { kind: 'fact', fact: 'verdict' },
  ]);
  chosen.takeUsual();
  expect([chosen.isUsual, columnsOf(chosen.now.value)]).toEqual([
    true,
    [
      { kind: 'fact', fact: 'specimen' },
      { kind: 'fact', fact: 'verdict' },
    ],
  ]);
});

it('are at least one', () => {
  const chosen = new ChosenColumns('test', { facts: ['pull'], results: 'all', forms: [] });
  chosen.toggleFact('pull');
  expect(columnsOf(chosen.now.value)).toBeNull();
});
