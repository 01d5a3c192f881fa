/** Whatever the program refuses, and whatever has gone wrong, is told in Spanish on a Spanish page. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { changeView } from '../../../renderer/store/view-settings.ts';
import { translated } from '../../../renderer/words/told.ts';
import { PUT_IN, saidInSources } from './sentences-in-the-sources.ts';

/** All whose words can come to the page; the command line speaks English. */
const ROOMS = [
  'core',
  'drivers',
  'electron/exports',
  'electron/main',
  'electron/photos',
  'electron/print',
  'electron/recorder',
  'electron/rules',
  'renderer',
];

/** What is said there has no form of its own, and why that is right. */
const NOT_ON_THE_PAGE: Readonly<Record<string, string>> = {
  'core/results/fracture-place.ts':
    'Where it broke is put in; told-of-results.test.ts holds every sentence that comes of it.',
};

/** Words that stand in most English sentences and in no Spanish one. */
const ENGLISH =
  /\b(the|of|is|are|and|with|from|not|for|by|at|it|to|than|this|that|has|was|be|nothing|give|choose|readings?|measured)\b/i;

beforeAll(() => changeView({ language: 'es' }));
afterAll(() => changeView({ language: 'en' }));

const said = saidInSources(ROOMS);
const exceptFor = ({ at }: { readonly at: string }): string => at.replace(/:\d+$/, '');

function isLeftEnglish(sentence: string): boolean {
  const spanish = translated(sentence);
  return spanish === sentence || ENGLISH.test(spanish);
}

it('finds the sentences of the sources, also put together, under a name, or given to a function', () => {
  const all = new Set(said.map(({ sentence }) => sentence));
  expect(all.size).toBeGreaterThan(400);
  for (const one of [
    // Thrown; of a table; of a condition; counted.
    'A signature needs a name. Nothing was signed.',
    `There is no break to take back; now the session is "${PUT_IN}" and nothing was changed.`,
    `${PUT_IN} may not be opened by ${PUT_IN}; ask the administrator for access to it.`,
    `${PUT_IN} columns are named but the rows of the file have ${PUT_IN} cells; name as many as there are.`,
    // Given to a function of its file.
    'The file is empty; give a file with a header and readings.',
  ])
    expect(all, one).toContain(one);
});

it('is there for every sentence of them', () => {
  const left = said
    .filter((one) => !(exceptFor(one) in NOT_ON_THE_PAGE) && isLeftEnglish(one.sentence))
    .map(({ at, sentence }) => `${at}: ${sentence} → ${translated(sentence)}`);
  expect(left).toEqual([]);
});

it('excepts nothing that has its Spanish', () => {
  for (const file of Object.keys(NOT_ON_THE_PAGE))
    expect(
      said.some((one) => exceptFor(one) === file && isLeftEnglish(one.sentence)),
      file,
    ).toBe(true);
});

it('names the state of a session as the page does', () => {
  expect(
    translated('There is no running pull to stop; now the session is "listening" and nothing was changed.'),
  ).toBe(
    'No hay ningún ensayo en marcha cuyo fin marcar; ahora el estado es «Escuchando» y no se cambió nada.',
  );
});

it('has its Spanish behind the name of a field too', () => {
  expect(translated('geometry.width: "12" has no unit; add one, for example "12 mm".')).toBe(
    'geometry.width: «12» no tiene unidad; añádala, por ejemplo "12 mm".',
  );
});
