/** Part of a name, typed above a list of what is kept: it stays over a look elsewhere, and is of one archive only. */
import { afterEach, expect, it } from 'vitest';
import { typedName } from '../../../renderer/stations/find-kept.tsx';
import { archiveGeneration, archivePath } from '../../../renderer/store/session-store.ts';

const before = archivePath.value;
afterEach(() => {
  archivePath.value = before;
});

it('is forgotten with its archive, not with what is added to that', () => {
  archivePath.value = '/shop/pulls.gaugemark';
  const typed = typedName();
  typed.value = 'HS-';
  // An import, or a merge.
  archiveGeneration.value++;
  expect(typed.value).toBe('HS-');
  archivePath.value = '/shop/other.gaugemark';
  expect(typed.value).toBe('');
});
