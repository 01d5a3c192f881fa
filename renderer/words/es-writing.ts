/** Texts about a certificate that is being written, in Spanish. */
import type { Words } from './en.ts';

export const esWriting: Words['writing'] = {
  steps: {
    issuing: 'Reuniendo lo que dice…',
    photos: 'Incorporando las fotos…',
    printing: 'Imprimiendo; muchas páginas con fotos tardan un minuto…',
    saving: 'Colocando el fichero…',
  },
  soFar: (seconds) => `${seconds} s hasta ahora`,
  photo: (at, of) => `foto ${at} de ${of}`,
  stop: 'Dejar de escribir',
};
