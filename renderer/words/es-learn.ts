/** Textos sobre aprender las líneas de un indicador, sus líneas de control y un segundo instrumento, en español. */
import type { enLearn } from './en-learn.ts';

export const esLearn: typeof enLearn = {
  learn: 'Aprender sus líneas…',
  learnHint:
    'Si no encaja ningún perfil: esto escucha con un ajuste de línea tras otro y propone uno. No se envía nada.',
  fromBytes: 'Aprender de bytes grabados…',
  needsPort:
    'Elija un puerto serie o un servidor de puertos (tcp:EQUIPO:PUERTO) que esté hablando. No se envía nada, así que lo que solo responde cuando se le pregunta, como Modbus, no se puede aprender; la máquina simulada ya tiene sus perfiles.',
  inPull: 'Se está registrando un ensayo; las líneas se aprenden antes o después.',
  listening: (port) => `Escuchando ${port}`,
  readingFile: (file) => `Aprendiendo de ${file}`,
  settings: (baud, bits, parity) => `${baud} baudios, ${bits} bits de datos, paridad ${parity}`,
  tried: (count, bytes) => `${count} ajustes probados antes, ${bytes} bytes oídos como máximo`,
  stop: 'Parar',
  found: (from) => `Propuesta a partir de ${from}`,
  confidence: (percent, readings, rejected) =>
    `Seguridad del ${percent} %: ${readings} líneas leídas, ${rejected} no.`,
  press:
    'Apriete la máquina con la mano, suavemente: ¿qué número se mueve? Póngale nombre; lo que ya lo tiene bien puede quedarse.',
  moved: 'se movió',
  field: 'Número',
  quantity: 'es',
  unit: 'en',
  unknown: 'no se sabe',
  quantities: {
    force: 'carga',
    extension: 'extensión',
    travel: 'recorrido del travesaño',
    stress: 'tensión',
    strain: 'deformación',
    time: 'tiempo',
    other: 'otra cosa',
  },
  unitMissing: (field) =>
    `Indique la unidad de «${field}»; si se adivinara, el valor podría salir cuatro veces mayor o menor.`,
  name: 'Nombre del perfil',
  nameMissing: 'Dé un nombre al perfil; con él se ofrece.',
  keep: 'Guardar este perfil',
  drop: 'Descartarlo',
  dropTyped: 'Descartarlo: nada de lo escrito se guarda',
  kept: (name) => `El perfil «${name}» está guardado en el archivo y elegido.`,
  proposedLines: 'Líneas como llegaron y como las lee la propuesta',
  factors: {
    title: 'Escala y desplazamiento de sus números…',
    means:
      'Un valor es el número mostrado × escala + desplazamiento. Cada línea queda en el registro en bruto, como llegó; escala y desplazamiento se guardan en el perfil, y el perfil con cada ensayo. Un ensayo hecho con otros puede leerse con estos en «Evaluar de nuevo», y queda como se registró.',
    scale: 'Escala, sin unidad',
    offset: (unit) => `Desplazamiento, ${unit}`,
    newName: 'Lo que trae el programa queda como está: estos se guardan con un nombre propio.',
    sameName:
      'Con el mismo nombre el perfil se ofrece con estos desde ahora; los ensayos conservan los suyos.',
    nameTaken: 'El programa trae un perfil con este nombre; dé otro a este.',
    faults: {
      'no-number': 'Se necesita un número simple, como 1,002 o -0,25.',
      zero: 'Una escala de cero haría iguales todas las lecturas.',
    },
    keep: 'Guardar el perfil con estos',
    set: 'Dejar de escuchar y ponerlos',
    setMeans: 'Lo registrado queda como está; vuelva a escuchar cuando estén guardados.',
    stopsFirst: 'antes se deja de escuchar',
    learntFirst: 'Antes hay que guardar o descartar el perfil aprendido, en la estación Indicador.',
    simulated: 'La máquina simulada no tiene escala ni desplazamiento que poner.',
    portFirst:
      'La escala y el desplazamiento son de un indicador real: elija antes su puerto, en la estación Indicador. Después aparecen debajo del perfil.',
  },
  controlLines: 'Líneas de control',
  controlLinesHint:
    'Algunos indicadores empiezan de nuevo cuando cambia DTR. Donde el puerto no las tiene, se anota y no cambia nada.',
  leave: 'sin tocar',
  on: 'activa',
  off: 'inactiva',
  second: 'Un segundo instrumento en su propio puerto (extensión junto a la carga)',
  secondProfileMissing: 'Elija el perfil del segundo instrumento: este archivo no tiene el que se eligió.',
  secondPort: 'Puerto del segundo instrumento',
  secondProfile: 'Perfil de lectura del segundo instrumento',
  secondPortMissing: 'Elija el puerto del segundo instrumento, o prescinda de él.',
  secondIs: (where, profile) => `Segundo instrumento: ${where} · ${profile}`,
  secondLost: 'no se oye',
  skew: (joined, total, mean, longest) =>
    `${joined} de ${total} lecturas llevan un valor del segundo instrumento; iba detrás de la carga ${mean} ms de media, ${longest} ms como máximo.`,
};
