/** What the window's own process says, in Spanish. */
import type { ShellWords } from './en-shell.ts';

export const ES_SHELL: ShellWords = {
  menu: {
    file: '&Archivo',
    quit: '&Salir',
    edit: '&Edición',
    undo: 'Deshacer lo escrito',
    redo: 'Rehacer lo escrito',
    cut: 'Cortar',
    copy: 'Copiar',
    paste: 'Pegar',
    selectAll: 'Seleccionar todo',
    set: '&Conjunto',
    pull: 'E&nsayo',
    search: '&Buscar',
    go: '&Ir',
    view: '&Vista',
    larger: 'Más grande',
    smaller: 'Más pequeño',
    naturalSize: 'Tamaño natural',
    fullScreen: 'Pantalla completa',
    help: 'A&yuda',
  },
  files: {
    archive: 'Archivo de Gaugemark',
    curve: 'Curva (CSV)',
    specimen: 'Probeta',
    profile: 'Perfil de lectura',
    rules: 'Reglas propias',
    scenario: 'Guion de la máquina simulada',
    certificate: 'Certificado (PDF)',
    certificateCsv: 'Certificado (CSV)',
    certificateJson: 'Certificado (JSON)',
    pictureSvg: 'Imagen (SVG)',
    picturePng: 'Imagen (PNG)',
    picturePdf: 'Imagen (PDF)',
    resultsPdf: 'Tabla de resultados (PDF)',
    photo: 'Foto (JPEG, PNG)',
    readings: 'Lecturas (CSV, texto)',
    workbook: 'Hoja de cálculo',
    everything: 'Todo lo que se guarda de él (JSON)',
    linkedData: 'Datos enlazados (JSON-LD)',
    any: 'Cualquier fichero',
  },
  dialogs: {
    openArchive: 'Abrir otro archivo',
    newArchive: 'Empezar un archivo nuevo',
    readings: 'Fichero de lecturas',
    bytes: 'Bytes grabados de un indicador',
    takeFrom: 'Archivo del que se toman ensayos',
    backup: 'Copia de seguridad que se restaura',
    results: 'Tabla de resultados',
    saveAs: 'Guardar como',
    open: 'Abrir',
    backupFolder: 'Carpeta de las copias de seguridad',
    yearsFolder: 'Carpeta para los archivos de cada año',
    rulesFolder: 'Carpeta de las reglas propias',
    photo: 'Foto de la probeta rota',
  },
  closing: {
    message: 'Se está registrando un ensayo.',
    detail:
      'Seguir registrando: la ventana se queda; no cambia nada.\n\n' +
      'Cerrar la ventana: el registrador sigue hasta que termine el registro; abra Gaugemark de nuevo para verlo.\n\n' +
      'Terminar el registro y cerrar: todo lo registrado hasta ahora se guarda; lo que el indicador envíe desde ahora, no.',
    buttons: ['Seguir registrando', 'Cerrar la ventana', 'Terminar el registro y cerrar'],
  },
  closingAtWork: {
    message:
      'Sigue en marcha un trabajo largo: una importación, una unión, una restauración, una copia de seguridad, una división por años, una exportación, un certificado, o una búsqueda que se evalúa de nuevo.',
    detail:
      'Dejar que termine: la ventana se queda; no cambia nada.\n\n' +
      'Detenerlo y cerrar: los ensayos del archivo quedan como están; una unión conserva los ensayos que ya tomó enteros, de una búsqueda evaluada de nuevo queda lo que se guardó; lo demás que se empezó no deja nada.',
    buttons: ['Dejar que termine', 'Detenerlo y cerrar'],
  },
  closingTyped: {
    message: (forms) => `Escrito y sin guardar: ${forms}.`,
    detail:
      'Volver: la ventana se queda; cada formulario está como se dejó, donde se abrió.\n\n' +
      'Cerrar sin ello: lo escrito ahí se pierde. Todo lo guardado o registrado queda, también un conjunto o una probeta a medio introducir.',
    buttons: ['Volver', 'Cerrar sin ello'],
  },
  goingOverTyped: {
    message: (forms) => `Escrito y sin guardar en el archivo abierto: ${forms}.`,
    detail:
      'Volver: este archivo sigue abierto; cada formulario está como se dejó, donde se abrió.\n\n' +
      'Pasar sin ello: se abre el otro archivo, y lo escrito ahí se pierde. Todo lo guardado o registrado queda en este archivo como está.',
    buttons: ['Volver', 'Pasar sin ello'],
  },
  pageGone: {
    message: (times) => `La página de la ventana terminó ${times} veces en un minuto.`,
    detail:
      'El registrador es un programa aparte y sigue; no se pierde nada de lo que ha registrado.\n\n' +
      'Cargarla de nuevo: la página empieza otra vez; se pierde lo escrito en un formulario y no guardado, un conjunto o una probeta a medio introducir queda.\n\n' +
      'Cerrar la ventana: el registro sigue sin ella; abra Gaugemark de nuevo para verlo. Se pierde lo escrito y no guardado.\n\n' +
      'Si esta máquina es virtual o se usa a distancia, arranque con --software-drawing.',
    buttons: ['Cargarla de nuevo', 'Cerrar la ventana'],
  },
};
