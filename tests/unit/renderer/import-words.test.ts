/** What an import leaves in doubt is said in the words in which the window's choice of columns has it. */
import { afterEach, expect, it } from 'vitest';
import { nameColumn } from '../../../core/exchange/import/name-column.ts';
import { changeView } from '../../../renderer/store/view-settings.ts';
import { told } from '../../../renderer/words/told.ts';
import { words } from '../../../renderer/words/words.ts';

afterEach(() => changeView({ language: 'en' }));

it.each(['en', 'es'] as const)('names crosshead travel as the choice does, in %s', (language) => {
  changeView({ language });
  const { quantity, evidence } = nameColumn({ name: 'extension', unitText: 'mm', largest: 10 });
  expect(quantity).toBe('extension');
  const { travel } = words.value.exchange.quantities;
  expect(told(evidence)).toMatch(new RegExp(`[“«]${travel}[”»]`));
});
