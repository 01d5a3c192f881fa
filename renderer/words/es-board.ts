/** Texts of the board, in Spanish. */
import type { enBoard } from './en-board.ts';

export const esBoard: typeof enBoard = {
  open: 'Ver el cálculo',
  title: (name) => `El cálculo de ${name}`,
  forward: 'Siguiente',
  back: 'Atrás',
  hide: 'Ocultar respuestas',
  keys: 'Espacio o → siguiente, ← atrás, H oculta las respuestas, Esc cierra',
  place: (at, of) => `${at} de ${of}`,
  nothing: 'De este ensayo aún no se puede calcular nada a mano.',
};
