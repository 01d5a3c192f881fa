/** Texts about taking back what was only a choice, in Spanish. */
import type { Words } from './en.ts';

export const esUndo: Words['undo'] = {
  takeBack: (identity) => `Recuperar lo escrito${identity === '' ? '' : `: ${identity}`}`,
  means: 'No se había guardado cuando se empezó o se retomó otra probeta.',
  takenBack: 'Deshecho. Ctrl+Mayús+Z lo rehace.',
  broughtAgain: 'Rehecho.',
  nothing: 'Aquí no hay nada que deshacer; lo guardado o registrado se corrige con un motivo.',
  nothingAgain: 'Aquí no hay nada que rehacer.',
  key: 'deshacer la última elección, lo escrito en un formulario, un filtro',
  againKey: 'rehacerla',
};
