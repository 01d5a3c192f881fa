import { describe, expect, it } from 'vitest';
import { COMMIT_INTERVAL_MS_MAX } from '../../../core/limits.ts';
import { ES_PAPER } from '../../../core/words/es/paper.ts';
import { SPANISH_FORMS } from '../../../core/words/in-spanish.ts';
import { ES_SHELL } from '../../../electron/main/words/es-shell.ts';
import { en } from '../../../renderer/words/en.ts';
import { es } from '../../../renderer/words/es.ts';

type Leaf = string | ((...args: string[]) => string);

function leaves(of: object, path = ''): Map<string, Leaf> {
  const found = new Map<string, Leaf>();
  for (const [key, value] of Object.entries(of) as [string, Leaf | object][]) {
    const at = path === '' ? key : `${path}.${key}`;
    if (typeof value === 'string' || typeof value === 'function') found.set(at, value as Leaf);
    else for (const [inner, leaf] of leaves(value, at)) found.set(inner, leaf);
  }
  return found;
}

const english = leaves(en);
const spanish = leaves(es);
/** Same in both languages: names, units, signs. */
const SAME = new Set([
  'program',
  'units.SI',
  'units.US',
  'view.en',
  'view.es',
  'doing.things.language-en.name',
  'doing.things.language-es.name',
  'plan.seconds',
  'common.none',
  'result.uncertainty',
  'result.budget.distributions.normal',
  'result.budget.distributions.rectangular',
  'result.budget.distributions.triangular',
  'look.trend.distributions.normal',
  'look.trend.distributions.lognormal',
  'known.strength',
  'exchange.bytes',
  'common.no',
  'people.pin',
  'people.roleWords.inspector',
  'people.roleWords.instructor',
  'set.certificate.papers.A4',
  // A language is named in itself.
  'set.certificate.paperLanguages.en',
  'set.certificate.paperLanguages.es',
  'instruments.sheet.error',
  'instruments.sheet.repeatability',
  'instruments.sheet.reversibility',
  'instruments.sheet.relativeResolution',
  'instruments.sheet.e4',
]);

describe('the texts of the page', () => {
  it('are there in both languages under the same keys', () => {
    expect([...spanish.keys()].sort()).toEqual([...english.keys()].sort());
  });

  it('are none of them empty', () => {
    for (const [key, text] of [...english, ...spanish])
      if (typeof text === 'string') expect(text.trim(), key).not.toBe('');
  });

  it('are translated, and put the same things in', () => {
    for (const [key, text] of english) {
      const other = spanish.get(key);
      const say = (leaf: Leaf | undefined) =>
        typeof leaf === 'function' ? leaf('«1»', '«2»') : (leaf ?? '');
      if (!SAME.has(key)) expect(say(other), key).not.toBe(say(text));
      for (const part of ['«1»', '«2»'])
        expect(say(other).includes(part), key).toBe(say(text).includes(part));
    }
  });

  // Common practice, no source: words of which each once stood beside another one for the same thing.
  it.each([
    ['what shows the load', /\bvisor|\blector\b|lectura abierta/, 'indicador'],
    ['a rate', /\britmo/, 'velocidad'],
    ['the crosshead', /\bcabezal/, 'travesaño'],
    ['who pulls', /\boperari/, 'operador'],
    ['readings that are missing', /\blaguna/, 'hueco'],
    ['the place where it has narrowed', /\bcuello/, 'estricción'],
    ['a run without a specimen', /(?:ensayo en blanco|recorrido en vacío)/, 'ensayo en vacío'],
    ['the length between the marks', /longitud (?:de referencia|inicial(?! entre))/, 'longitud entre marcas'],
    ['the length of even section', /longitud paralela/, 'longitud calibrada'],
    ['the sheet of a verification', /hoja de trabajo/, 'hoja de verificación'],
    ['what a procedure goes through', /\b(?:re)?calific/, 'cualificación'],
    ['a part of a code', /\bcláusula/, 'apartado'],
    ['the first yielding', /\bcedencia/, 'fluencia'],
    ['the tour', /(?:hacer|dejar|deje) el recorrido\b/, 'visita guiada'],
  ])('have one Spanish word for %s', (_thing, otherwise, _word) => {
    const said = [
      ...[...spanish].flatMap(([key, leaf]) => (key.endsWith('.also') ? [] : [String(leaf)])),
      ...[...leaves(ES_SHELL).values()].map(String),
      ...SPANISH_FORMS.map(([, form]) => form),
      ...Object.values(ES_PAPER),
    ];
    expect(said.filter((text) => otherwise.test(text.toLowerCase()))).toEqual([]);
  });

  it.each([
    ['en', en, 'at most one reading'],
    ['es', es, 'como mucho una lectura'],
  ])('in the guide (%s) name both bounds of what can be lost', (_language, words, reading) => {
    const steps = words.guide.chapters.pull.steps.join(' ');
    expect(steps).toContain(reading);
    expect(steps).toContain(` ${COMMIT_INTERVAL_MS_MAX} ms`);
  });
});
