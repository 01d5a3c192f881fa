/** Texts about a pull that is typed from the frame's display, in Spanish. */
import type { enTyped } from './en-typed.ts';

export const esTyped: typeof enTyped = {
  title: 'Una máquina sin puerto: teclear su máximo',
  means:
    'Escriba lo que muestra su indicador después del ensayo. No hay curva; el ensayo queda señalado como tecleado dondequiera que se muestre.',
  load: 'Carga máxima mostrada',
  loadHint: 'con su unidad',
  yieldLoad: 'Carga de fluencia',
  yieldHint: 'donde el indicador se detuvo, si se vio',
  elongation: 'Alargamiento tras la rotura',
  elongationHint: 'si no se calcula con las mitades',
  keep: 'Guardar como tecleado',
  sure: 'Es correcto, guardar',
  needsSpecimen: 'Primero mida la probeta y guárdela.',
  recording: 'Hay un registro abierto; ciérrelo primero.',
  kept: (name) => `El ensayo de ${name} se guarda como tecleado desde el indicador.`,
  source: 'tecleado desde el indicador de la máquina; no se registró nada',
  noCurve: 'Tecleado desde el indicador de la máquina: no hay curva.',
  mark: 'tecleado',
  values: (load) => `Carga máxima tecleada como ${load}`,
};
