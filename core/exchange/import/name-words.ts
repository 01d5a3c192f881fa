/**
 * Words by which files name their columns, in the languages of the trade. Written without accents and in lower
 * case; `likely` where the word alone leaves a doubt that a person should see.
 */
import type { ImportQuantity } from './import-plan.ts';

export interface WordRule {
  readonly words: readonly string[];
  readonly quantity: ImportQuantity;
  readonly certainty: 'sure' | 'likely';
  /** Said where it is only likely. */
  readonly doubt?: string;
}

/** A column with one of these is something else than a quantity of the curve, whatever else its name says. */
export const OTHER_WORDS: readonly string[] = [
  'rate',
  'speed',
  'velocity',
  'geschwindigkeit',
  'velocidad',
  'vitesse',
  'transverse',
  'lateral',
  'transversal',
  'quer',
  'querdehnung',
  'width',
  'breite',
  'temperature',
  'temperatur',
  'temperatura',
  'energy',
  'energie',
  'energia',
  'work',
  'setpoint',
  'target',
  'command',
  'soll',
  'sollwert',
  'plastic',
  'error',
  'status',
  'index',
  'cycle',
  'cycles',
  'count',
  'voltage',
];

/** In this order: the first rule with a word in the name counts. */
export const WORD_RULES: readonly WordRule[] = [
  { words: ['strain', 'epsilon', 'ε', 'deformacion', 'deformation'], quantity: 'strain', certainty: 'sure' },
  { words: ['dehnung'], quantity: 'strain', certainty: 'sure' },
  { words: ['stress', 'spannung', 'contrainte', 'sigma', 'σ'], quantity: 'stress', certainty: 'sure' },
  {
    words: ['esfuerzo'],
    quantity: 'stress',
    certainty: 'likely',
    doubt: '"esfuerzo" can mean a force as well',
  },
  {
    words: ['tension'],
    quantity: 'stress',
    certainty: 'likely',
    doubt: '"tension" can mean a voltage or a force as well',
  },
  {
    words: [
      'crosshead',
      'traverse',
      'traversenweg',
      'travel',
      'stroke',
      'actuator',
      'ram',
      'piston',
      'kolbenweg',
      'travesano',
      'machine',
      'maschinenweg',
      'recorrido',
      'carrera',
    ],
    quantity: 'travel',
    certainty: 'sure',
  },
  { words: ['extensometer', 'extensometro', 'extensometre'], quantity: 'extension', certainty: 'sure' },
  {
    words: [
      'extension',
      'ext',
      'elongation',
      'elong',
      'verlangerung',
      'langenanderung',
      'alargamiento',
      'allongement',
    ],
    quantity: 'extension',
    certainty: 'likely',
    doubt:
      'taken as measured over the gauge length; if it is the travel of the crosshead, say “crosshead travel” for it (travel_mm where columns are written in words)',
  },
  {
    words: [
      'displacement',
      'disp',
      'position',
      'pos',
      'weg',
      'verschiebung',
      'desplazamiento',
      'deplacement',
      'posicion',
    ],
    quantity: 'travel',
    certainty: 'likely',
    doubt:
      'a displacement is taken as crosshead travel unless the file says that it comes from an extensometer',
  },
  {
    words: ['force', 'load', 'kraft', 'last', 'fuerza', 'carga', 'prufkraft', 'standardkraft', 'zugkraft'],
    quantity: 'force',
    certainty: 'sure',
  },
  {
    words: ['time', 'zeit', 'tiempo', 'temps', 'elapsed', 'prufzeit', 'zeitstempel', 'timestamp'],
    quantity: 'time',
    certainty: 'sure',
  },
  { words: ['f'], quantity: 'force', certainty: 'likely', doubt: 'a single letter' },
  { words: ['t'], quantity: 'time', certainty: 'likely', doubt: 'a single letter' },
  { words: ['dl', 'δl'], quantity: 'extension', certainty: 'likely', doubt: 'a symbol only' },
  { words: ['e'], quantity: 'strain', certainty: 'likely', doubt: 'a single letter' },
];

export const TRUE_WORDS: readonly string[] = [
  'true',
  'wahre',
  'wahr',
  'real',
  'verdadera',
  'verdadero',
  'vraie',
  'logarithmic',
  'hencky',
];

/** "Standard force [kN]" → standard, force, kn; accents off, underscores and signs as blanks. */
export function wordsOf(name: string): string[] {
  return name
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .split(/[^\p{L}\p{N}%]+/u)
    .filter((word) => word !== '');
}
