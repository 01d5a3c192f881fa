/** Texts about a laboratory's own rule packs, in Spanish. */
import type { enOwnRules } from './en-own-rules.ts';

export const esOwnRules: typeof enOwnRules = {
  title: (used, refused) =>
    refused === '0'
      ? `Reglas propias: ${used === '0' ? 'ninguna todavía' : used}`
      : `Reglas propias: ${used} en uso, ${refused} no utilizables`,
  folder: 'Un archivo por cada paquete de reglas en la carpeta',
  none: 'No hay ningún archivo. «gaugemark rules show ID --json» imprime un paquete con el que empezar uno propio.',
  notUsed: 'no se usa',
  again: 'Leer la carpeta de nuevo',
  another: 'Otra carpeta…',
  usual: 'La carpeta habitual',
};
