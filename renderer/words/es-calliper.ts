/** Texts about what a calliper sends, in Spanish. */
import type { enCalliper } from './en-calliper.ts';

export const esCalliper: typeof enCalliper = {
  hint: 'Aquí puede escribir un calibre: valor, Intro, el siguiente; Intro en un campo vacío pasa a la medida siguiente.',
  beep: 'Suena un tono cuando se pregunta por una medida.',
  ask: (text, usual) =>
    `¿Es correcto ${text}? Las probetas de esta forma suelen tener aquí ${usual}. No se guarda hasta que lo confirme.`,
  right: 'Es correcto',
};
