/** Texts about a laboratory's own rule packs, in Spanish. */
import type { enOwnRules } from './en-own-rules.ts';

const unusable = (count: string): string => (count === '1' ? 'no utilizable' : 'no utilizables');

export const esOwnRules: typeof enOwnRules = {
  title: (used, refused) =>
    refused === '0'
      ? `Reglas propias: ${used === '0' ? 'ninguna todavía' : used}`
      : `Reglas propias: ${used} en uso, ${refused} ${unusable(refused)}`,
  folder: 'Un fichero por cada paquete de reglas en la carpeta',
  none: 'Aún no hay ningún fichero. Empiece uno a partir de las reglas elegidas arriba; sus cifras y frases se cambian en cualquier editor de texto.',
  notUsed: 'no se usa',
  begin: 'Empezar uno con las reglas elegidas…',
  begun: (path) =>
    `Las reglas están en ${path}. Cambie ese fichero y lea la carpeta de nuevo; desde esta carpeta se ofrecen como reglas propias.`,
  begunElsewhere: (path, folder) =>
    `Las reglas están en ${path}, pero la carpeta que se lee es ${folder}: ponga el fichero ahí, o elija la carpeta del fichero con «Otra carpeta…».`,
  again: 'Leer la carpeta de nuevo',
  read: (folder, used, refused) =>
    `Se leyó ${folder}: ${used === '0' ? 'ninguna regla propia' : `${used} en uso`}${refused === '0' ? '' : `, ${refused} ${unusable(refused)}`}.`,
  another: 'Otra carpeta…',
  usual: 'La carpeta habitual',
};
