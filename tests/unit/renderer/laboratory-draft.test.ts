/** The laboratory on certificates is half typed while it says something else than what is kept, and no longer. */
import { afterEach, expect, it } from 'vitest';
import {
  LABORATORY,
  blankLaboratory,
  heldLaboratory,
  takeKept,
} from '../../../renderer/stations/certificate/laboratory-draft.ts';
import { typedNotKept } from '../../../renderer/store/held-typing.ts';

afterEach(() => heldLaboratory.letGo(LABORATORY));

const KEPT = { name: 'Weld shop', lines: ['Long Lane 5', 'Upton'] };

it.each([
  ['one that is kept', KEPT],
  ['none', null],
])('typed and taken out again, it is not named at closing: of %s', (_, kept) => {
  const draft = heldLaboratory.of(LABORATORY, blankLaboratory);
  takeKept(draft, kept);
  expect(typedNotKept.value).not.toContain('laboratory');
  const { value } = draft.name;
  draft.name.value = `${value} two`;
  expect(typedNotKept.value).toContain('laboratory');
  // A blank line, or a blank behind the name, is kept by nobody.
  draft.name.value = `${value} `;
  draft.lines.value += '\n';
  expect(typedNotKept.value).not.toContain('laboratory');
  draft.lines.value = 'elsewhere';
  expect(typedNotKept.value).toContain('laboratory');
});

it('what the archive answers does not overwrite what is typed', () => {
  const draft = heldLaboratory.of(LABORATORY, blankLaboratory);
  draft.name.value = 'Half a na';
  takeKept(draft, KEPT);
  expect(draft.name.value).toBe('Half a na');
  expect(typedNotKept.value).toContain('laboratory');
  draft.name.value = KEPT.name;
  draft.lines.value = KEPT.lines.join('\n');
  expect(typedNotKept.value).not.toContain('laboratory');
});
