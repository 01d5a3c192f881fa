import { afterEach, describe, expect, it } from 'vitest';
import { namedThing } from '../../../renderer/doing/doing-field.tsx';
import { findThings } from '../../../renderer/doing/find-thing.ts';
import { THINGS } from '../../../renderer/doing/functions.ts';
import { PULL_ACTS } from '../../../renderer/stations/pull/pull-acts.ts';
import { PLACES } from '../../../renderer/store/place.ts';
import { changeView } from '../../../renderer/store/view-settings.ts';
import { enDoing } from '../../../renderer/words/en-doing.ts';
import { esDoing } from '../../../renderer/words/es-doing.ts';

const found = (text: string): string[] => findThings(text, THINGS, namedThing).map(({ id }) => id);

afterEach(() => changeView({ language: 'en' }));

/** As somebody writes it who has never seen the program. */
const WRITTEN = {
  en: {
    pounds: ['units'],
    password: ['go-people'],
    tutorial: ['tour'],
    'print the report': ['write-certificate', 'go-certificate'],
    'how do I back up': ['backup'],
    'make a copy': ['backup'],
    tare: ['zero'],
    'show it in psi': ['units'],
    'spreadsheet of the readings': ['export'],
    'it was not broken': ['goOn'],
    'new welder': ['make-set'],
    'sample width': ['go-specimen'],
    photo: ['add-photo', 'take-photo'],
    'dark colours': ['theme-soot'],
    'load cell calibration': ['go-instruments'],
    'verify the extensometer': ['go-instruments'],
    'compare two curves': ['lay-over'],
    'spread of the strength': ['see-trend'],
    'unknown indicator': ['learn-lines'],
    'archive of other years': ['search-others'],
    shortcuts: ['keys'],
    'reduction of area': ['after-fracture'],
    'stop the test': ['stop', 'go-pull'],
    español: ['language-es'],
    modulus: ['evaluate-again', 'go-result'],
    'elastic window': ['evaluate-again'],
    'blank run': ['evaluate-again'],
    'override the verdict': ['go-set'],
    simulation: ['tour', 'go-readout'],
    'typed pull': ['typed'],
    'saved search': ['find'],
    filter: ['find'],
    'rule pack': ['make-set'],
    alarm: ['sound'],
    integrity: ['check'],
    zoom: ['digits'],
    settings: ['choices'],
    waive: ['decide-otherwise'],
    modbus: ['go-readout'],
    'sort the table': ['find'],
    'the license': ['about'],
    'jsonld ontology': ['export'],
    'retire a load cell': ['go-instruments'],
    'out of use': ['go-instruments', 'go-people'],
    'somebody has left': ['go-people'],
    'put in a kept specimen': ['put-in'],
    'day of the import': ['state-day'],
    'stated day': ['state-day'],
    'backup folder': ['backup-folder'],
    'true stress': ['go-result'],
    threshold: ['go-pull'],
    'scale of the digits': ['digits'],
    'size of the text': ['larger', 'smaller'],
    font: ['larger', 'smaller', 'digits'],
    'scale and offset': ['channel-factors'],
  },
  es: {
    'imprimir el informe': ['write-certificate', 'go-certificate'],
    'copia de seguridad': ['backup'],
    tara: ['zero'],
    'quiero ver psi': ['units'],
    'hoja de calculo': ['export'],
    'no ha roto': ['goOn'],
    'nueva persona': ['add-person'],
    'calibracion de la celula': ['go-instruments'],
    atajos: ['keys'],
    estriccion: ['after-fracture'],
    'comparar curvas': ['lay-over'],
    tendencia: ['see-trend'],
    inglés: ['language-en'],
    'ventana elástica': ['evaluate-again'],
    'ensayo en vacío': ['evaluate-again'],
    veredicto: ['go-set'],
    simulación: ['tour', 'go-readout'],
    filtro: ['find'],
    ajustes: ['choices'],
    dispensa: ['decide-otherwise'],
    ordenar: ['find'],
    'retirar un instrumento': ['go-instruments'],
    'fuera de uso': ['go-instruments', 'go-people'],
    'meter una probeta guardada': ['put-in'],
    'día de la importación': ['state-day'],
    'copia en una carpeta': ['backup-folder'],
    'tensión verdadera': ['go-result'],
    umbral: ['go-pull'],
    'escala de las cifras': ['digits'],
    'tamaño del texto': ['larger', 'smaller'],
    fuente: ['larger', 'smaller'],
    desplazamiento: ['channel-factors'],
    libras: ['units'],
    contraseña: ['go-people'],
    tutorial: ['tour'],
  },
} as const;

describe('what can be done', () => {
  for (const language of ['en', 'es'] as const)
    it(`is found by plain words (${language})`, () => {
      changeView({ language });
      for (const [text, wanted] of Object.entries(WRITTEN[language]))
        for (const id of wanted) expect(found(text).slice(0, 4), text).toContain(id);
    });

  it('is found by its own name first, in both languages', () => {
    for (const language of ['en', 'es'] as const) {
      changeView({ language });
      for (const thing of THINGS) {
        const { name } = namedThing(thing);
        expect(found(name).slice(0, 2), name).toContain(thing.id);
      }
    }
  });

  it('has a name of its own each, in both languages', () => {
    expect(Object.keys(enDoing.things).sort()).toEqual(THINGS.map(({ id }) => id).sort());
    expect(Object.keys(esDoing.things)).toEqual(Object.keys(enDoing.things));
    for (const language of ['en', 'es'] as const) {
      changeView({ language });
      const names = THINGS.map((thing) => namedThing(thing).name);
      expect(new Set(names).size).toBe(names.length);
    }
  });

  it('holds every page and every act of the pull', () => {
    const ids = THINGS.map(({ id }): string => id);
    for (const place of PLACES) expect(ids).toContain(`go-${place}`);
    for (const act of PULL_ACTS) expect(ids).toContain(act);
  });

  it('is all offered where nothing is written, and nothing where nothing fits', () => {
    expect(found('  ')).toHaveLength(THINGS.length);
    expect(found('xyzzy')).toEqual([]);
  });

  it('says why it can’t be done now, in a sentence', () => {
    const said = THINGS.flatMap(({ notNow }) => notNow?.() ?? []);
    expect(said.length).toBeGreaterThan(10);
    for (const sentence of said) expect(sentence).toMatch(/^\p{Lu}.*\.$/u);
  });
});
