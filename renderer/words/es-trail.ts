/** Texts about what is kept of people and proof, in Spanish. */
import type { enTrail } from './en-trail.ts';

export const esTrail: typeof enTrail = {
  stateDay: 'Declarar el día del ensayo…',
  correctDay: 'Corregir el día declarado…',
  dayTitle: 'Día del ensayo',
  dayMeans:
    'Un fichero no dice con certeza cuándo se ensayó. Lo que se declare aquí queda junto al registro, con nombre, momento y motivo; el registro y lo declarado antes quedan como están. Un certificado emitido antes no lo dice.',
  dayAct: 'Declarar este día',
  dayDone: 'El día queda guardado.',
  dayBefore: (day, when, by) => `antes: ${day}, declarado ${when} por ${by}`,
  makeVoid: 'Anular este ensayo…',
  voidTitle: 'Anular este ensayo',
  voidMeans:
    'El ensayo queda como se registró y sigue visible. Ya no cuenta en ningún conjunto, veredicto ni certificado. No se puede deshacer.',
  voidAct: 'Anularlo',
  voidDone: 'El ensayo está anulado y ya no cuenta.',
  voidMark: (when, by, reason) => `ANULADO desde ${when}, por ${by}: ${reason}`,
  isVoid: 'anulado',
  nobody: 'alguien sin nombrar',
  photos: 'Fotos de la probeta rota',
  noPhotos: 'Aún no se guarda ninguna foto.',
  addPhoto: 'Añadir una foto…',
  takePhoto: 'Tomar una foto…',
  photoKept: (name) => `La foto ${name} está guardada con su huella SHA-256.`,
  photoFacts: (pixels, bytes) => `${pixels} píxeles, ${bytes} bytes`,
  withdraw: 'Retirar…',
  withdrawOne: (name) => `Retirar la foto ${name}`,
  withdrawMeans: 'La foto queda en el archivo, marcada como retirada, y ya no figura en ningún certificado.',
  withdrawAct: 'Retirar la foto',
  withdrawn: (by, reason) => `Retirada por ${by}: ${reason}`,
  caption: 'Qué muestra',
  sign: 'Firmar este certificado',
  signedBy: (names) => `Firmas: ${names}`,
  signMeans: (number) =>
    `Su nombre se pone bajo el certificado ${number} tal como está ahora. Si algo en él cambia después, el siguiente lleva otro número y ninguna firma.`,
  printedName: 'Nombre completo o sigla',
  meaning: 'Significado',
  meanings: {
    'tested by': 'Ensayado por',
    'evaluated by': 'Evaluado por',
    'reviewed by': 'Revisado por',
    'approved by': 'Aprobado por',
    'witnessed by': 'Presenciado por',
  },
  pin: 'PIN, si se pide',
  signAct: 'Firmar',
  signed: (number, name) =>
    `El certificado ${number} está firmado por ${name}. Escríbalo una vez más para tener la firma en papel.`,
};
