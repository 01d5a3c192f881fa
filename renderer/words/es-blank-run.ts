/** Textos sobre un ensayo que sirve de ensayo en vacío de una máquina, en español. */
import type { enBlankRun } from './en-blank-run.ts';

export const esBlankRun: typeof enBlankRun = {
  number: 'Número de ensayo',
  take: 'Tomar ese ensayo',
  notYet: 'Escriba el número de un ensayo en el que una barra rígida ocupó el lugar de la probeta.',
};
