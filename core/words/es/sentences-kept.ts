/** What the archive refuses to keep, to read or to write beside it: English forms with their Spanish. */
export const ES_KEPT_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  // What is not there.
  ['There is no pull {1} in this archive.', 'En este archivo no hay ningún ensayo {1}.'],
  ['There is no set {1} in this archive.', 'En este archivo no hay ningún conjunto {1}.'],
  ['There is no specimen {1} in this archive.', 'En este archivo no hay ninguna probeta {1}.'],
  ['There is no photo {1} in this archive.', 'En este archivo no hay ninguna foto {1}.'],
  [
    'There is no instrument {1} in this archive; look at the register.',
    'En este archivo no hay ningún instrumento {1}; mire la lista de instrumentos.',
  ],
  [
    'There is no member {1} in any set of this archive.',
    'En ningún conjunto de este archivo hay una probeta {1}.',
  ],
  [
    'There is no member {1} in set {2}, so nothing can be a retest of it.',
    'En el conjunto {2} no hay ninguna probeta {1}, así que nada puede ser su repetición.',
  ],

  // Days of imported pulls.
  [
    'Pull {1} was not imported from a file: when it was is on its own record, and no other day is stated beside it.',
    'El ensayo {1} no se importó de un fichero: cuándo fue consta en su propio registro, y no se declara otro día a su lado.',
  ],
  [
    'The day {1} lies ahead; state the day on which it was pulled.',
    'El día {1} aún no ha llegado; declare el día en que se ensayó.',
  ],

  // Records that are still open.
  [
    'Pull {1} is still being recorded; close it first.',
    'El ensayo {1} aún se está registrando; ciérrelo antes.',
  ],
  [
    'Pull {1} is still being recorded; close its record first.',
    'El ensayo {1} aún se está registrando; cierre antes su registro.',
  ],
  [
    'Pull {1} is not closed yet; close its record, then export it.',
    'El ensayo {1} aún no está cerrado; cierre su registro y luego expórtelo.',
  ],
  [
    'The record of pull {1} is still open; close it, then make it void.',
    'El registro del ensayo {1} sigue abierto; ciérrelo y luego anúlelo.',
  ],
  [
    'The record of pull {1} is still open; close it, then keep an evaluation of it.',
    'El registro del ensayo {1} sigue abierto; ciérrelo y luego guarde una evaluación.',
  ],

  // Corrections.
  [
    'A correction needs its reason; say in a few words why.',
    'Una corrección necesita su motivo; diga en pocas palabras por qué.',
  ],
  [
    'A retest needs its reason; say in a few words why.',
    'Una repetición necesita su motivo; diga en pocas palabras por qué.',
  ],
  [
    'A photo in the place of another needs its reason; say in a few words why.',
    'Una foto en lugar de otra necesita su motivo; diga en pocas palabras por qué.',
  ],
  [
    'Specimen {1} has been corrected already, by {2}; correct that one.',
    'La probeta {1} ya se corrigió, con la {2}; corrija esa.',
  ],
  [
    'Pull {1} stands as recorded, so there is no evaluation {2} to supersede; open the pull again and look at what stands.',
    'El ensayo {1} vale como se registró, así que no hay ninguna evaluación {2} que sustituir; abra de nuevo el ensayo y mire qué vale.',
  ],
  [
    'Evaluation {1} of pull {2} was kept meanwhile; open the pull again, look at it, then decide anew.',
    'Entretanto se guardó la evaluación {1} del ensayo {2}; abra de nuevo el ensayo, mírela y decida otra vez.',
  ],
  [
    'Pull {1} has {2} evaluations, as many as are kept of one; the last one goes on standing.',
    'El ensayo {1} tiene {2} evaluaciones, tantas como se guardan de uno; sigue valiendo la última.',
  ],
  [
    'Pull {1} has no fracture note yet, so there is nothing to correct.',
    'El ensayo {1} aún no tiene anotación de la rotura, así que no hay nada que corregir.',
  ],
  [
    'Pull {1} has a fracture note already ({2}); a correction must name it as the one that it supersedes.',
    'El ensayo {1} ya tiene una anotación de la rotura ({2}); una corrección ha de nombrarla como la que sustituye.',
  ],
  [
    'Pull {1} is void already: {2}. Nothing was changed.',
    'El ensayo {1} ya está anulado: {2}. No se cambió nada.',
  ],
  [
    'pull {1} is void ({2}, {3}): {4}; it does not count',
    'el ensayo {1} está anulado ({2}, {3}): {4}; no cuenta',
  ],
  ['nobody named', 'alguien sin nombrar'],
  ['Member {1} was made void already, by {2}.', 'La probeta {1} ya fue anulada, por {2}.'],
  [
    'A set holds at most {1} specimens; begin another.',
    'Un conjunto contiene como mucho {1} probetas; empiece otro.',
  ],

  // Photos.
  [
    'The very same photo is kept with pull {1} already, as photo {2}. Nothing was added.',
    'Esa misma foto ya está guardada con el ensayo {1}, como foto {2}. No se añadió nada.',
  ],
  [
    'Pull {1} has {2} photos, as many as are kept of one.',
    'El ensayo {1} tiene {2} fotos, tantas como se guardan de uno.',
  ],
  [
    'Pull {1} has no photo {2} that another could take the place of.',
    'El ensayo {1} no tiene ninguna foto {2} que otra pudiera reemplazar.',
  ],
  [
    'Photo {1} does not stand any more: {2}. Nothing was changed.',
    'La foto {1} ya no vale: {2}. No se cambió nada.',
  ],

  // Instruments.
  ['frame', 'máquina'],
  ['force channel', 'canal de fuerza'],
  ['extensometer', 'extensómetro'],
  ['calliper', 'calibre'],
  [
    'Entry {1} of an instrument is not there or was corrected meanwhile; look at the instrument again.',
    'La ficha {1} de un instrumento no está o se corrigió entretanto; mire de nuevo el instrumento.',
  ],
  [
    'The register holds at most {1} instruments; nothing was entered.',
    'La lista contiene como mucho {1} instrumentos; no se anotó nada.',
  ],
  [
    '{1} is a {2} and stays one; enter the {3} as another instrument.',
    '{1} ya está anotado y conserva su clase ({2}); anote el nuevo ({3}) como otro instrumento.',
  ],
  [
    'There is another {1} in use here; give this one another name.',
    'Aquí hay en uso otro instrumento con este nombre ({1}); dé a este otro nombre.',
  ],
  [
    'The {1} is retired; choose one that is in use.',
    'Este instrumento ya no está en uso: {1}; elija uno que lo esté.',
  ],
  [
    'The calibration is dated {1}, which lies after today ({2}); correct the day.',
    'La calibración lleva la fecha {1}, posterior a hoy ({2}); corrija el día.',
  ],
  [
    'An instrument holds at most {1} calibrations; nothing was entered.',
    'Un instrumento contiene como mucho {1} calibraciones; no se anotó nada.',
  ],
  [
    'Calibration {1} is none of this instrument or was corrected meanwhile; look at the instrument again.',
    'La calibración {1} no es de este instrumento o se corrigió entretanto; mire de nuevo el instrumento.',
  ],
  [
    'Certificate {1} is entered already (calibration {2}); correct that one instead.',
    'El certificado {1} ya está anotado (calibración {2}); corrija esa en su lugar.',
  ],
  [
    'the worksheet is one of forces, and the instrument is of another kind: {1}; leave it out',
    'la hoja de verificación es de fuerzas y el instrumento es de otra clase: {1}; omítala',
  ],
  [
    'the worksheet is one of an extensometer, and the instrument is of another kind: {1}; leave it out',
    'la hoja de verificación es de un extensómetro y el instrumento es de otra clase: {1}; omítala',
  ],
  [
    '{1} is no unit of {2}, which this instrument measures; correct the unit',
    '{1} no es una unidad de {2}, que es lo que mide este instrumento; corrija la unidad',
  ],
  ['length', 'longitud'],
  [
    'That calibration holds no worksheet of a verification, so nothing can be written.',
    'Esa calibración no contiene ninguna hoja de una verificación, así que no hay nada que escribir.',
  ],

  // The archive's file, and other archives.
  [
    'The file {1} exists already and is not written over; choose another name.',
    'El fichero {1} ya existe y no se sobrescribe; elija otro nombre.',
  ],
  [
    'The file {1} exists already and is not written over; choose another folder.',
    'El fichero {1} ya existe y no se sobrescribe; elija otra carpeta.',
  ],
  [
    'There is no folder {1}; make it first or give another one.',
    'No existe la carpeta {1}; créela primero o indique otra.',
  ],
  [
    'The archive has {1} GiB. It works as it is; “Split by year” under its table, or gaugemark archive split --by-year, makes checked files by year of it, and a new archive can be begun for what comes.',
    'El archivo tiene {1} GiB. Funciona tal como está; «Dividir por años», bajo su tabla, o gaugemark archive split --by-year hacen de él ficheros comprobados por año, y se puede empezar un archivo nuevo para lo que venga.',
  ],
  [
    'The archive has no ended pull yet, so there is nothing to split.',
    'El archivo todavía no tiene ningún ensayo terminado, así que no hay nada que dividir.',
  ],
  [
    'The archive is being split already; stop that, or wait for it. Nothing more was begun.',
    'El archivo ya se está dividiendo; deténgalo o espere. No se empezó nada más.',
  ],
  [
    'The split needs about {1} MiB on the disk of {2} while it is done, and {3} MiB are free; free some space or choose a folder on another disk. Nothing was begun.',
    'La división necesita unos {1} MiB en el disco de {2} mientras se hace, y hay {3} MiB libres; libere espacio o elija una carpeta en otro disco. No se empezó nada.',
  ],
  [
    'The disk that holds {1} is full, so nothing was split; free some space or choose another disk. The original is untouched.',
    'El disco que contiene {1} está lleno, así que no se dividió nada; libere espacio o elija otro disco. El original queda intacto.',
  ],
  [
    'Pull {1} could not be taken over ({2}), so nothing was split; the original is untouched.',
    'El ensayo {1} no se pudo tomar ({2}), así que no se dividió nada; el original queda intacto.',
  ],
  ['hashes or pulls are missing', 'faltan huellas o ensayos'],
  [
    'A part does not agree with the archive, so nothing was split; check the archive with gaugemark archive check. The original is untouched.',
    'Una parte no coincide con el archivo, así que no se dividió nada; compruebe el archivo con gaugemark archive check. El original queda intacto.',
  ],
  [
    'The backup does not agree with the archive, so it was not kept; check the archive with gaugemark archive check.',
    'La copia de seguridad no coincide con el archivo, así que no se guardó; compruebe el archivo con gaugemark archive check.',
  ],
  [
    'The file {1} is a database of another program. Nothing was changed; choose another file.',
    'El fichero {1} es una base de datos de otro programa. No se cambió nada; elija otro fichero.',
  ],
  [
    'Another running program is writing to the archive {1}; wait until it has finished, or close it there. Nothing was changed.',
    'Otro programa en marcha está escribiendo en el archivo {1}; espere a que termine o ciérrelo allí. No se cambió nada.',
  ],
  [
    'The archive {1} can be read only by way of a copy, and no folder can be made in {2} for it; set TMPDIR to a folder that can be written to. Nothing was changed.',
    'El archivo {1} solo se puede leer mediante una copia, y en {2} no se puede crear una carpeta para ella; ponga TMPDIR en una carpeta donde se pueda escribir. No se cambió nada.',
  ],
  [
    'The archive {1} can be read only by way of a copy, and {2} has no room for it ({3} MiB); free some, or set TMPDIR to a folder on a larger disk. Nothing was changed.',
    'El archivo {1} solo se puede leer mediante una copia, y en {2} no hay sitio para ella ({3} MiB); libere espacio o ponga TMPDIR en una carpeta de un disco mayor. No se cambió nada.',
  ],
  [
    'A restore of {1} was cut short before the backup stood there. The archive is back at its place as it was, and the backup is untouched; restore again if it is still wanted.',
    'Una restauración de {1} se interrumpió antes de que la copia de seguridad estuviera allí. El archivo está de nuevo en su sitio como estaba y la copia no se ha tocado; restaure otra vez si aún lo desea.',
  ],
  [
    'A restore of {1} was cut short, and the archive lies whole at {2}. Nothing was changed; start Gaugemark with that archive and it is put back, or read it where it lies.',
    'Una restauración de {1} se interrumpió y el archivo está entero en {2}. No se ha cambiado nada; inicie Gaugemark con ese archivo y volverá a su sitio, o léalo donde está.',
  ],
  [
    'A restore of {1} was cut short, and the archive that stood there could not be put back: it lies whole at {2}. Close what holds files in that folder and try again, or rename it back.',
    'Una restauración de {1} se interrumpió y el archivo que estaba allí no se pudo devolver a su sitio: está entero en {2}. Cierre lo que retiene ficheros en esa carpeta e inténtelo de nuevo, o devuélvale el nombre.',
  ],
  [
    'A backup is being put in the place of {1} by another program; wait until it has finished.',
    'Otro programa está poniendo una copia de seguridad en el lugar de {1}; espere a que termine.',
  ],
  [
    'The archive {1} was copied while it was open, without the file "-wal" beside it: what was kept last before the copy is missing in it. Copy both files together, or use a backup that the program made.',
    'El archivo {1} se copió mientras estaba abierto, sin el fichero «-wal» que está a su lado: le falta lo último que se guardó antes de la copia. Copie ambos ficheros juntos, o use una copia de seguridad hecha por el programa.',
  ],
  [
    'The folder {1} for the archive does not exist; make it first or choose another one.',
    'La carpeta {1} para el archivo no existe; créela antes o elija otra.',
  ],
  [
    '{1} is no folder, so no archive can lie in it; choose another place.',
    '{1} no es una carpeta, así que no puede contener un archivo; elija otro sitio.',
  ],
  [
    'The folder {1} lies on a network share ({2}), where a recording is not safe; record on a disk of this computer and back up to the share.',
    'La carpeta {1} está en un recurso de red ({2}), donde un registro no está a salvo; registre en un disco de este ordenador y haga en el recurso la copia de seguridad.',
  ],
  [
    '{1} is no file; choose a file for the archive.',
    '{1} no es un fichero; elija un fichero para el archivo.',
  ],
  [
    "The database of {1} can't be made to sync every commit, so a recording would not be safe against a power cut.",
    'No se consigue que la base de datos de {1} lleve cada escritura al disco, así que un registro no estaría a salvo de un corte de corriente.',
  ],
  [
    'There is no archive {1}. None was made; give another file.',
    'No existe el archivo {1}. No se creó ninguno; indique otro fichero.',
  ],
  [
    'The file {1} holds nothing yet, so there is nothing to read. Nothing was changed; give another file, or record a pull into it.',
    'El fichero {1} aún no contiene nada, así que no hay nada que leer. No se cambió nada; indique otro fichero o registre en él un ensayo.',
  ],
  [
    'The archive {1} may not be read by this user. Nothing was changed; give read permission.',
    'Este usuario no tiene permiso para leer el archivo {1}. No se cambió nada; dé permiso de lectura.',
  ],
  ['{1} is the archive itself; give a backup.', '{1} es el propio archivo; indique una copia de seguridad.'],
  ['That is this very archive; choose a backup.', 'Ese es este mismo archivo; elija una copia de seguridad.'],
  ['The file {1} is damaged; nothing was changed.', 'El fichero {1} está dañado; no se cambió nada.'],
  [
    'The copy of {1} did not arrive whole beside {2}; nothing was changed, try another disk.',
    'La copia de {1} no llegó entera junto a {2}; no se cambió nada, pruebe otro disco.',
  ],
  ['{1} is this very archive; give another one.', '{1} es este mismo archivo; indique otro.'],
  [
    'The archive could not be opened because of a fault in the program. Nothing was changed; keep the file and report what the recorder wrote to its log.',
    'No se pudo abrir el archivo por un error del programa. No se cambió nada; conserve el fichero e informe de lo que el registrador escribió en su diario.',
  ],
  [
    'The archive is not known to be damaged, so it is not set aside. Nothing was changed.',
    'No consta que el archivo esté dañado, así que no se aparta. No se cambió nada.',
  ],
  [
    'The folder {1} for backups does not exist or can’t be read; make it first or choose another one.',
    'La carpeta {1} para las copias de seguridad no existe o no se puede leer; créela antes o elija otra.',
  ],
  [
    'More than {1} pulls of specimen {2} have kept evaluations, more than are evaluated again with one correction; make void those that do not count, then correct it.',
    'Más de {1} ensayos de la probeta {2} tienen evaluaciones guardadas, más de las que se evalúan de nuevo con una corrección; anule los que no cuentan y corríjala después.',
  ],
  [
    'Evaluation {1} of pull {2} was kept meanwhile; look at what the correction changes in it, then keep the correction.',
    'Entretanto se guardó la evaluación {1} del ensayo {2}; mire qué cambia en ella la corrección y guarde después la corrección.',
  ],
  // Copies that go on.
  [
    'The archive does not say under which identity it records, or not so that it can be read; check it with gaugemark archive check, and use a backup.',
    'El archivo no dice con qué identidad registra, o no de modo que se pueda leer; compruébelo con gaugemark archive check y use una copia de seguridad.',
  ],
  [
    'This archive was put back from backups {1} times, which is all that it can tell apart; begin a new archive and take this one into it.',
    'Este archivo se restauró de copias de seguridad {1} veces, y no puede distinguir más; empiece un archivo nuevo y tome este en él.',
  ],
  [
    'The copy {1} could not be made one file: a log stays beside it. Nothing was changed; free some space on its disk and try again.',
    'La copia {1} no pudo dejarse en un solo fichero: queda un diario a su lado. No se cambió nada; libere espacio en su disco e inténtelo otra vez.',
  ],
];
