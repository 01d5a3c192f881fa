/** Whatever a check of the archive finds, and whatever a merge would do with a pull, is told in Spanish on a Spanish page. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { changeView } from '../../../renderer/store/view-settings.ts';
import { translated } from '../../../renderer/words/told.ts';
import { words } from '../../../renderer/words/words.ts';
import { PUT_IN, foundInSources } from './sentences-in-the-sources.ts';

beforeAll(() => changeView({ language: 'es' }));
afterAll(() => changeView({ language: 'en' }));

/** What looks at an archive, what reads its rows and blocks and finds them damaged, and what takes them from another one. */
const found = foundInSources((path) =>
  /^core\/archive\/(check-|merge-|search\/check-|codec\/|(row-hash|read-blocks|pull-reader|in-steps)\.ts)/.test(
    path,
  ),
);

it('finds what the sources say of what they find', () => {
  const all = new Set(found.map(({ sentence }) => sentence));
  for (const one of [
    'every page of the file is sound',
    `${PUT_IN} blocks don't agree with their hashes`,
    `measurements of specimen ${PUT_IN} differ from its form`,
    'a block ends too early',
    'stated days',
    'its record is still open there; close it in that archive first',
  ])
    expect(all, one).toContain(one);
});

it('is there for all of it', () => {
  const left = found
    .filter(({ sentence }) => {
      const thing: string | undefined = words.value.archive.checkedThings[sentence];
      return thing === undefined && translated(sentence) === sentence;
    })
    .map(({ at, sentence }) => `${at}: ${sentence}`);
  expect(left).toEqual([]);
});

it('is there for what a merge puts together: things with their numbers, and what stands otherwise', () => {
  expect(
    translated(
      'the same pull of the same archive; would be added: evaluations 2, voidings 1; said otherwise in both and left as it is here: sets, places in sets; look at both and say which counts',
    ),
  ).toBe(
    'el mismo ensayo del mismo archivo; se añadiría: evaluaciones 2, anulaciones 1; dicho de otro modo en los dos y dejado como está aquí: conjuntos, puestos en conjuntos; mire los dos y diga cuál vale',
  );
  expect(translated('measurements of specimen 3 differ from its form; and 2 more')).toBe(
    'las mediciones de la probeta 3 difieren de su ficha; y otros 2',
  );
  // A sentence with a comma is no list of things.
  expect(translated('voidings, whatever else')).toBe('voidings, whatever else');
});
