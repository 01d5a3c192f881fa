/** Texts about copying, in Spanish. */
import type { Words } from './en.ts';

export const esCopy: Words['copy'] = {
  copied: (rows) => `${rows} líneas copiadas, para pegarlas en una hoja de cálculo`,
  copiedSome: (rows, all) =>
    `Solo se copiaron los primeros ${rows} de ${all} ensayos; «Exportar lo encontrado…» los escribe todos`,
  allChosen: (count) => `Elegidos los ${count} ensayos encontrados; Ctrl+C los copia`,
  number: 'Ensayo n.º',
  noted: 'Marcado como',
  unit: 'Unidad',
  resultHeads: [
    'Símbolo',
    'Resultado',
    'Valor',
    'Unidad',
    'Incertidumbre expandida ±',
    'Factor de cobertura k',
  ],
  key: 'copiar la tabla que tiene el foco',
  resultsOf: (name) => `Resultados de ${name}`,
  calibrations: 'Calibraciones, una por línea',
  worksheet: 'Cifras de la hoja de verificación',
  taken: 'Lo que se incorpora, ensayo por ensayo',
  states: 'Copia y archivo, uno junto al otro',
};
