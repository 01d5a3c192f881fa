/** Texts of the strip of the rate at the pull, in Spanish. */
import type { Words } from './en.ts';

export const esRateStrip: Words['rateStrip'] = {
  title: 'Velocidad de ensayo',
  choose: 'Velocidad que hay que mantener, según',
  none: 'ningún método; no se muestra intervalo',
  noWindow: (stage) => `Sin intervalo ${stage}`,
  waits: 'A la espera del ensayo',
  isOver: 'El ensayo ha terminado',
  cantTell: 'no se puede saber: falta el canal o la medida',
  upTo: (rate) => `hasta ${rate}`,
  or: ' o ',
  allowed: (windows) => `permitido ${windows}`,
  places: {
    falling: 'en descenso',
    below: 'demasiado lento',
    inside: 'como se permite',
    above: 'demasiado rápido',
  },
  quantities: {
    'stress-rate': 'Velocidad de tensión',
    'strain-rate': 'Velocidad de deformación',
    'crosshead-rate': 'Travesaño por longitud calibrada',
  },
  stages: { elastic: 'en la parte elástica', yield: 'en la fluencia', 'to-maximum': 'hasta el máximo' },
  methods: {
    'astm-e8-a': 'ASTM E8/E8M método A, velocidad de tensión',
    'astm-e8-b': 'ASTM E8/E8M método B, velocidad de deformación',
    'astm-e8-c': 'ASTM E8/E8M método C, travesaño',
    'iso-6892-1-a': 'ISO 6892-1 método A, velocidad de deformación',
    'iso-6892-1-b-stiff': 'ISO 6892-1 método B, desde 150 GPa (acero)',
    'iso-6892-1-b': 'ISO 6892-1 método B, menos de 150 GPa (aluminio)',
  },
};
