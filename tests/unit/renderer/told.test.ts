import { readFileSync, readdirSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import { cameraFault } from '../../../core/photo/camera-fault.ts';
import { pictureFacts, tooManyBytes } from '../../../core/photo/picture-facts.ts';
import { proposeImport } from '../../../core/exchange/import/propose-import.ts';
import { parseQuantity, quantityFaultSentence } from '../../../core/quantity/parse-quantity.ts';
import { area } from '../../../core/results/area.ts';
import { reductionOfArea } from '../../../core/results/reduction-of-area.ts';
import type { Specimen } from '../../../core/specimen/specimen.ts';
import { ES_ON_PAPER_SENTENCES } from '../../../core/words/es/sentences-on-paper.ts';
import { FORMS_OF_THE_TEXT, SPANISH_FORMS, inSpanish } from '../../../core/words/in-spanish.ts';
import { momentText } from '../../../renderer/numbers/format.ts';
import { changeView } from '../../../renderer/store/view-settings.ts';
import { told, withDecimalComma } from '../../../renderer/words/told.ts';

// Other tests of this process speak English.
afterEach(() => changeView({ language: 'en' }));

/** All that core, recorder, drivers and the window's own process can say, rule packs and scenarios with them; not the table itself. */
function programText(): string {
  const root = new URL('../../../', import.meta.url).pathname;
  return [
    'core',
    'electron/recorder',
    'electron/main',
    'electron/exports',
    'electron/photos',
    'electron/print',
    'drivers',
    'renderer/bridge',
    'renderer/store',
    'fixtures/scenarios',
    'fixtures/readouts',
  ]
    .flatMap((room) =>
      readdirSync(`${root}${room}`, { recursive: true, encoding: 'utf8' })
        .filter((name) => /\.(ts|json)$/.test(name) && !(room === 'core' && name.startsWith('words/')))
        .map((name) => readFileSync(`${root}${room}/${name}`, 'utf8')),
    )
    .join('\n');
}

/** As a pack has it. */
const inJson = (text: string): string => JSON.stringify(text).slice(1, -1);

/** What stands under `says`, `summary` and `notes`, at any depth. */
function sentencesOf(part: unknown, name = ''): string[] {
  if (typeof part === 'string') return ['says', 'summary', 'notes'].includes(name) ? [part] : [];
  if (Array.isArray(part)) return part.flatMap((one) => sentencesOf(one, name));
  if (typeof part !== 'object' || part === null) return [];
  return Object.entries(part).flatMap(([key, one]) => sentencesOf(one, key));
}

/** Shorter pieces between two figures stand in any text. */
const TELLING_LENGTH = 6;

it.each([
  ['semicolons and a decimal comma', 'd;F\n0,5;0,25\n1,5;3,25\n2,5;6,25\n3,5;9,25\n'],
  ['units in their line', 'Zeit,Kraft,Weg\ns,kN,mm\n0.1,1.5,0.2\n0.2,2.5,0.4\n0.3,3.5,0.6\n0.4,3.9,0.7\n'],
  ['columns that are only guessed', 'a,b\nkN,mm\n1.5,2\n2.5,3\n3.5,4\n4.5,5\n'],
  ['no units', 'Kraft,Weg\n1,2\n2,3\n3,4\n4,5\n'],
  ['no names', '0\t10\t1\n1\t20\t2\n2\t30\t3\n3\t40\t4\n'],
])('what is found of a file with %s, and asked of it, is told in Spanish', (_what, file) => {
  const outcome = proposeImport(Buffer.from(file), true);
  if (!outcome.ok) throw new Error(outcome.fault.sentence);
  const { evidence, questions, columns } = outcome.proposal;
  const english = [...evidence, ...questions, ...columns.map((column) => column.evidence)];
  expect(english.length).toBeGreaterThan(4);
  changeView({ language: 'es' });
  for (const sentence of english)
    expect(told(sentence)).not.toMatch(/\b(?:cells?|rows?|lines?|names?|the|by|of|and|say|no known)\b/i);
});

describe('the table of sentences', () => {
  it('holds only what the program says, so that a sentence that was changed is noticed here', () => {
    const text = programText();
    for (const [english] of FORMS_OF_THE_TEXT)
      for (const part of english.split(/\{\d\}/))
        if (part.trim().length >= TELLING_LENGTH)
          expect(
            [part.trim(), inJson(part.trim())].some((one) => text.includes(one)),
            english,
          ).toBe(true);
  });

  it('puts in nothing that the English form does not have, and counts places in order', () => {
    for (const [english, spanish] of SPANISH_FORMS) {
      const places = [...english.matchAll(/\{(\d)\}/g)].map(([, place]) => Number(place));
      expect(places, english).toEqual(places.map((_, i) => i + 1));
      for (const [, place] of spanish.matchAll(/\{(\d)\}/g)) expect(places, spanish).toContain(Number(place));
    }
  });

  it('has each form once, those of paper alone among them', () => {
    const english = [...SPANISH_FORMS, ...ES_ON_PAPER_SENTENCES].map(([form]) => form);
    expect(english.filter((form, at) => english.indexOf(form) !== at)).toEqual([]);
  });
});

describe('a sentence in Spanish', () => {
  beforeEach(() => changeView({ language: 'es' }));

  it('is there for everything that a shipped pack says of its rules', () => {
    const said = builtInPacks().flatMap(({ file }) => sentencesOf(file));
    expect(said.length).toBeGreaterThan(100);
    // The comma of a number makes no Spanish of a sentence.
    expect(said.filter((says) => inSpanish(says) === says)).toEqual([]);
  });

  it('names the metals that have such a slope, and those that have not', () => {
    expect(
      told(
        'The slope of the elastic part, 2.67 Msi, is no modulus of any metal that shops weld (magnesium alloys 6.09 – 6.82 Msi, aluminium alloys 9.57 – 11.6 Msi, titanium alloys 14.5 – 17.4 Msi, copper alloys 13.9 – 22.5 Msi, cast iron 13.1 – 25.4 Msi, nickel alloys 25.4 – 32.6 Msi, steel 26.8 – 31.9 Msi; handbook values, from memory): a scale, a unit or the gauge length may be wrong by a factor, and with it every value that rests on the extension.',
      ),
    ).toContain('metal que se suelde en taller (aleaciones de magnesio 6,09 – 6,82 Msi, de aluminio');
  });

  it('has a decimal comma in quantities, and keeps the points of clauses, symbols, versions and commands', () => {
    const kept = 'QW-153.1, Rp0.2, A5.1/A5.1M, 0.1.0, IS 1608:2005 clause 11.1, --tail 0.5, 2.5-k';
    expect(withDecimalComma(kept)).toBe(kept);
    expect(
      withDecimalComma('R² is 0.99928; k = 2.87; 0.95 × 58 ksi, -0.3 %, between 27.71 and 110.8 MPa'),
    ).toBe('R² is 0,99928; k = 2,87; 0,95 × 58 ksi, -0,3 %, between 27,71 and 110,8 MPa');
    expect(withDecimalComma('de 27.71 a 110.8 MPa')).toBe('de 27,71 a 110,8 MPa');
  });

  it('carries its figures, and words that are put in are translated too', () => {
    expect(told('The break is after reading 812; the 34 readings after it are not evaluated.')).toBe(
      'La rotura está tras la lectura 812; lo que sigue (34 lecturas) no se evalúa.',
    );
    expect(
      told(
        'The readout has gone: The connection to /dev/ttyUSB0 is lost; check the adapter and its cable. What was received is kept. It is being looked for; everything before is safe, and the gap is marked.',
      ),
    ).toBe(
      'El indicador ha desaparecido: Se ha perdido la conexión con /dev/ttyUSB0; revise el adaptador y su cable. Lo recibido se guarda. Se está buscando; todo lo anterior está a salvo y el hueco queda marcado.',
    );
  });

  it('is there for everything that a typed size can be told', () => {
    for (const text of ['', 'wide', '12', '12 furlong', '-3 mm', '1e999 mm', '0 mm']) {
      const outcome = parseQuantity(text, { dimension: 'length', positive: true });
      if (outcome.ok) throw new Error(`${text} is a size`);
      const sentence = quantityFaultSentence(outcome.fault, text);
      expect(told(sentence), sentence).not.toBe(sentence);
    }
  });

  it('is there for a section that was not measured, before the pull or at all', () => {
    const geometry = { kind: 'unmeasured' } as const;
    const final = { min: 8, max: 8, mean: 8, measurements: [] };
    const before = area(geometry);
    const reduction = reductionOfArea(
      { geometry, finalWidth: final, finalThickness: final } as unknown as Specimen,
      undefined,
    );
    const reasons = [
      before.ok ? '' : before.withheld.reason,
      reduction?.given === false ? reduction.withheld.reason : '',
    ];
    expect(reasons.map(told)).toEqual([
      expect.stringMatching(/^No se midió la sección; .* las necesita\.$/),
      // Final sizes are there: nothing is said of them.
      expect.stringMatching(/^No se midió la sección inicial, .* el motivo\.$/),
    ]);
  });

  it('is there for everything that a camera or a file of no photo can be told', () => {
    const photos = [
      ...(['none', 'refused', 'busy', 'other', 'open', 'late'] as const).map(
        (kind) => cameraFault(kind).sentence,
      ),
      ...[new Uint8Array(3), new Uint8Array([0xff, 0xd8, 0xff, 0])].map((bytes) => {
        const read = pictureFacts(bytes);
        return read.ok ? '' : `"a.jpg": ${read.sentence}`;
      }),
      tooManyBytes(30_000_000).sentence,
    ];
    for (const sentence of photos) {
      expect(told(sentence), sentence).toMatch(/No se guardó nada\.$/);
      expect(told(sentence)).not.toMatch(/camera|photo|file/);
    }
  });

  it('stays English where the table does not hold it, whatever stands in it', () => {
    for (const sentence of ['Something quite new happened.', '{1} (.*) $&', ''])
      expect(told(sentence)).toBe(sentence);
  });

  it('is not touched while English is chosen', () => {
    changeView({ language: 'en' });
    expect(told('maximum force')).toBe('maximum force');
  });
});

it.each(['en', 'es'] as const)(
  'a moment in a sentence stands as everywhere on the page, in %s',
  (language) => {
    changeView({ language });
    const moment = '2026-11-30T00:10:56.823+00:00';
    const shown = told(`pull 1 is void (nobody named, ${moment}): the grips slipped; it does not count`);
    expect(shown).toContain(momentText(Date.parse(moment)));
    expect(shown).not.toMatch(/\dT\d|\.823/);
  },
);
