/** Textos para evaluar de nuevo todo lo encontrado, en español. */
import type { enAgain } from './en-again.ts';

export const esAgain: typeof enAgain = {
  open: 'Evaluar todos de nuevo…',
  title: 'Lo encontrado, evaluado de nuevo',
  means: (method: string) =>
    `Cada ensayo se evalúa con este programa (método ${method}) con las opciones vigentes y se compara con lo último que se dijo de él: la evaluación guardada, o el certificado si es más nuevo; sin ninguno de los dos, lo que dio la primera vez. No se guarda nada si no se pide abajo.`,
  begin: (count: string) => (count === '1' ? 'Evaluar 1 ensayo' : `Evaluar ${count} ensayos`),
  goOn: 'Seguir',
  stop: 'Parar',
  progress: (done: string, all: string, changed: string, without: string) =>
    `${done} de ${all} evaluados; ${changed} cambiaron; de ${without} no se había dicho nada`,
  tooMany: (count: string) => `Como máximo ${count} a la vez: acote la búsqueda.`,
  changed: 'Lo que cambió',
  nothingToCompare: 'De ninguno se había declarado nada antes, así que no hay con qué comparar.',
  nothing: 'Nada cambió.',
  pull: 'Ensayo',
  value: 'Valor',
  before: 'Dicho',
  after: 'Ahora',
  against: {
    evaluation: (number: string, method: string) => `evaluación ${number}, método ${method}`,
    certificate: (number: string, method: string) => `certificado ${number}, método ${method}`,
    'as-it-stands': (_number: string, method: string) => `como está, método ${method}`,
  },
  firstStated: (moment, program, method) =>
    `como dio la primera vez, el ${moment}, con Gaugemark ${program}, método ${method}`,
  more: (count: string) =>
    `Cambiaron otros ${count} ensayos; la línea de órdenes los enumera todos (archive evaluate-again).`,
  notGiven: 'no se da',
  setsTitle: 'Conjuntos de lo que cambió',
  judging: 'Se están juzgando los conjuntos …',
  noSets: 'Nada de lo que cambió está en un conjunto.',
  setsFlip: (flips, all) =>
    flips === '0'
      ? `Los veredictos ${all === '1' ? 'del conjunto' : `de los ${all} conjuntos`} son los de antes.`
      : `${flips} de ${all} ${all === '1' ? 'conjunto' : 'conjuntos'} ${flips === '1' ? 'se juzga' : 'se juzgan'} de otro modo, entero o en una probeta.`,
  set: 'Conjunto, probeta',
  verdictBefore: 'Por lo declarado',
  verdictNow: 'Ahora',
  asBefore: 'como antes',
  moreSets: (count) =>
    `${count} conjuntos más; la línea de órdenes los enumera todos (archive evaluate-again).`,
  keepTitle: 'Guardar lo que cambió',
  keepMeans:
    'Guarda una nueva evaluación de cada ensayo de la lista. Nombra la que reemplaza, quién, cuándo y por qué; lo registrado y lo que valía antes se conservan.',
  reason: 'Por qué',
  reasonNeeded: 'Diga por qué estas evaluaciones reemplazan a las anteriores.',
  by: 'Quién',
  keep: (count: string) => (count === '1' ? 'Guardar 1 evaluación' : `Guardar ${count} evaluaciones`),
  kept: (count: string) =>
    count === '1' ? 'Se guardó 1 evaluación.' : `Se guardaron ${count} evaluaciones.`,
  keptAs: (number: string) => `guardada como evaluación ${number}`,
  nothingToKeep: 'Nada ha cambiado que se pueda guardar.',
};
