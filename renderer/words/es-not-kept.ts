/** Names of forms in which something may be typed that is not kept, in Spanish. */
import type { Words } from './en.ts';

export const esNotKept: Words['notKept'] = {
  laboratory: 'laboratorio de los certificados',
  evaluation: 'otra evaluación',
  afterFracture: 'medidas después de la rotura',
  fracture: 'nota sobre la rotura',
  setReason: 'motivo de la corrección de un conjunto',
  calibration: 'calibración',
  verifiedCalibration: 'calibración de una hoja de verificación',
  forces: 'hoja de verificación de fuerzas',
  extensions: 'hoja de verificación de un extensómetro',
  instrument: 'instrumento',
  reason: 'motivo de un acto',
  day: 'día de un ensayo',
  person: 'persona',
  typedPull: 'máximo tecleado',
  againReason: 'motivo de evaluar de nuevo lo encontrado',
  factors: 'escala y desplazamiento de un perfil de lectura',
  learnt: 'números de un indicador aprendido',
  caption: 'leyenda de una foto',
  correctionReason: 'motivo de la corrección de una probeta',
};
