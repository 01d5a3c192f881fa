/** Textos de la hoja de verificación de un extensómetro, en español. */
import type { enExtension } from './en-extension.ts';

export const esExtension: typeof enExtension = {
  lead: 'Desplazamientos aplicados por un patrón (calibrador, bloques) y lo que indicó el extensómetro, en dos series o más. Los límites de ISO 9513 y ASTM E83 son de memoria: compárelos con su propio ejemplar.',
  gaugeLength: 'Longitud base nominal',
  measuredGaugeLength: 'Longitud base medida',
  measuredHint: 'entre cuchillas; sin ella su error no entra en ninguna clase',
  applied: 'Desplazamiento aplicado',
  strain: 'error de deformación',
  waits: 'Introduzca longitud base, resolución y una línea entera; errores y clase aparecen al lado.',
  gaugeError: (percent) => `Error de la longitud base: ${percent} %`,
  stated: (standard, held) => `${standard}: clase ${held}`,
  none: (standard) =>
    `${standard}: no se declara clase (dos series y cinco desplazamientos como mínimo, cada uno dentro de una clase)`,
};
