/** Texts about a certificate that is being written, in Spanish. */
import type { Words } from './en.ts';

export const esWriting: Words['writing'] = {
  steps: {
    issuing: 'Reuniendo lo que dice…',
    photos: 'Incorporando las fotos…',
    shrinking: 'Reduciendo las fotos a lo que muestra el papel…',
    printing: 'Imprimiendo todas las páginas de una vez; muchas tardan un minuto…',
    saving: 'Colocando el fichero…',
  },
  soFar: (seconds) => `${seconds} s hasta ahora`,
  printed: (pages) => (pages === '1' ? '1 página está impresa' : `${pages} páginas están impresas`),
  photo: (at, of) => `foto ${at} de ${of}`,
  stop: 'Dejar de escribir',
};
