/** Whatever is found on a record, however oddly it went, is told in Spanish on a Spanish page and on Spanish paper. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { translated } from '../../../renderer/words/told.ts';
import { changeView } from '../../../renderer/store/view-settings.ts';
import { wholeSentencesIn } from './sentences-in-the-sources.ts';

/** Words that stand in most English sentences and in no Spanish one. */
const ENGLISH =
  /\b(the|of|is|are|and|with|from|not|for|by|at|it|to|than|this|that|was|be|after|before|readings?|measured)\b/i;

/** What is said there has no form of its own, and why that is right. */
const HELD_ELSEWHERE: Readonly<Record<string, string>> = {
  'core/results/fracture-place.ts':
    'Where it broke is put in; told-of-results.test.ts holds every sentence that comes of it.',
  'core/results/elongation-conversion.ts': 'Of two kinds of steel only; each whole sentence has its form.',
  'core/results/extension-trust.ts':
    'What became of the extension is put in; each whole clause has its form.',
};

beforeAll(() => changeView({ language: 'es' }));
afterAll(() => changeView({ language: 'en' }));

it('each sentence of what results are made from', () => {
  const said = wholeSentencesIn(['core/results']);
  expect(said.length).toBeGreaterThan(150);
  const left = said
    .filter(
      ({ at, sentence }) =>
        !(at.replace(/:\d+$/, '') in HELD_ELSEWHERE) && ENGLISH.test(translated(sentence)),
    )
    .map(({ at, sentence }) => `${at}: ${sentence} → ${translated(sentence)}`);
  expect(left).toEqual([]);
});

/** Written for the command line alone, for paper (`ES_PAPER` has it), for a picture's file, or told by a code on the page. */
const NOT_HERE =
  /^core\/(?:words|results|self-check|certificate|drawing|curve|exchange\/export)\/|^core\/pull\/(?:readings-origin|typed-pull)|import-readings|export-csv|learn-from-port/;
/** What is put in decides: each whole sentence has its form. */
const PUT_TOGETHER =
  /^core\/(?:evaluation\/stated-options|acceptance\/verdict-remarks|specimen\/plausible-range|verification\/verify-extension)\.ts/;

it('and each of what is found in files, sets, sheets and lines', () => {
  const left = wholeSentencesIn(['core', 'drivers', 'electron/rules'])
    .filter(
      ({ at, sentence }) =>
        !NOT_HERE.test(at) && !PUT_TOGETHER.test(at) && ENGLISH.test(translated(sentence)),
    )
    .map(({ at, sentence }) => `${at}: ${sentence} → ${translated(sentence)}`);
  expect(left).toEqual([]);
});

it.each([
  [
    'Before the break, the extension gave no more readings after reading no. 1673 (at 2.98 %); the extension after that doesn’t count.',
    'Antes de la rotura, la extensión no dio más lecturas tras la lectura n.º 1673 (al 2.98 %); la extensión posterior no cuenta.',
  ],
  [
    'The extension jumped by 0.31 % after reading no. 12 without the force that this would take: probably a slip of the extensometer; look at its knife edges. What it moves is withheld or says so.',
    'La extensión saltó un 0.31 % tras la lectura n.º 12 sin la fuerza que eso pediría: probablemente resbaló el extensómetro; revise sus cuchillas. Lo que desplaza se omite o lo indica.',
  ],
  [
    'The load steps by 12 MPa after reading no. 40 while the extension does not, so this is not the strength of the specimen for sure.',
    'La carga da un salto de 12 MPa tras la lectura n.º 40 y la extensión no, así que no es seguro que esta sea la resistencia de la probeta.',
  ],
])('with the clause that is put into it: %s', (english, spanish) => {
  expect(translated(english)).toBe(spanish);
});
