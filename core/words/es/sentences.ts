/**
 * Sentences that come from core and recorder in English, in Spanish: those that people at the frame and at the desk meet
 * most. `{1}`, `{2}` stand for what is put in, which is translated by the same table where it is words. What is not here
 * stays in English. A test holds every English form against the program's own text.
 */
export const ES_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  // Names of values.
  ['original cross-section area', 'área inicial de la sección transversal'],
  ['final cross-section area', 'área final de la sección transversal'],
  ['original gauge length', 'longitud inicial entre marcas'],
  ['maximum force', 'fuerza máxima'],
  ['tensile strength (ultimate tensile strength)', 'resistencia a la tracción'],
  ['upper yield strength', 'límite elástico superior'],
  ['lower yield strength', 'límite elástico inferior'],
  ['yield point extension', 'extensión en el escalón de fluencia'],
  ['yield load', 'carga de fluencia'],
  ['proof strength, offset', 'límite elástico convencional'],
  ['proof strength, 0.2 % offset', 'límite elástico convencional al 0.2 %'],
  ['proof strength, total extension', 'límite elástico a extensión total'],
  ['slope of the elastic part', 'pendiente de la parte elástica'],
  ['percentage elongation after fracture', 'alargamiento porcentual tras la rotura'],
  [
    'percentage elongation after fracture, from the extensometer',
    'alargamiento porcentual tras la rotura, del extensómetro',
  ],
  [
    'percentage elongation after fracture, from crosshead travel',
    'alargamiento porcentual tras la rotura, del recorrido del travesaño',
  ],
  ['percentage reduction of area', 'estricción porcentual'],
  ['percentage total extension at maximum force', 'extensión total porcentual bajo fuerza máxima'],
  ['percentage total extension at fracture', 'extensión total porcentual en la rotura'],
  [
    'percentage plastic extension at maximum force (uniform elongation)',
    'extensión plástica porcentual bajo fuerza máxima (alargamiento uniforme)',
  ],
  ['tensile strain hardening exponent', 'exponente de endurecimiento por deformación'],
  ['strength coefficient', 'coeficiente de resistencia'],
  ['energy to maximum force', 'energía hasta la fuerza máxima'],
  ['energy to fracture', 'energía hasta la rotura'],
  ['true stress at maximum force', 'tensión verdadera bajo fuerza máxima'],
  ['true (logarithmic) strain at maximum force', 'deformación verdadera (logarítmica) bajo fuerza máxima'],
  ['yield ratio {1}/Rm', 'relación {1}/Rm'],
  ['proof strength, {1} % offset (offset yield strength)', 'límite elástico convencional al {1} %'],
  [
    'proof strength, {1} % total extension (yield strength by extension under load)',
    'límite elástico a una extensión total del {1} %',
  ],
  [
    'largest stress recorded, not the tensile strength',
    'tensión mayor registrada, no la resistencia a la tracción',
  ],
  [
    'largest stress recorded, before work hardening (absolute maximum)',
    'tensión mayor registrada, antes del endurecimiento (máximo absoluto)',
  ],

  // The record.
  [
    '{1} of {2} readings have no load and are passed over.',
    '{1} de {2} lecturas no tienen carga y se pasan por alto.',
  ],
  [
    'Readings larger than any channel can show are passed over; look at the readout and its line format.',
    'Se pasan por alto lecturas mayores que lo que puede mostrar cualquier canal; revise el indicador y su formato de línea.',
  ],
  ['1 reading has the same time as the one before.', 'Una lectura tiene el mismo tiempo que la anterior.'],
  [
    '{1} readings have the same time as the one before.',
    '{1} lecturas tienen el mismo tiempo que la anterior.',
  ],
  [
    'The time goes back at {1} readings; readings are taken in the order they came.',
    'El tiempo retrocede en {1} lecturas; se toman en el orden en que llegaron.',
  ],
  [
    'The record has {1} in which nothing was received, the longest {2} s; what happened in {3} is not known.',
    'El registro tiene {1} sin recibir nada, la mayor de {2} s; no se sabe qué pasó entretanto.',
  ],
  [
    'The second instrument has {1} in which nothing was received from it, the longest {2} s; the load went on, and what the second instrument would have shown in {3} is not known.',
    'El segundo instrumento tiene {1} sin recibir nada de él, la mayor de {2} s; la carga siguió, y no se sabe qué habría indicado entretanto.',
  ],
  ['1 gap', 'un hueco'],
  ['{1} gaps', '{1} huecos'],
  [
    'The record begins at {1} % of the maximum load: a preload, or a zero that was not set.',
    'El registro empieza al {1} % de la carga máxima: una precarga, o un cero sin poner.',
  ],
  [
    'The loading begins {1} s into the record (reading {2}); the slack before it is left out.',
    'La carga empieza a los {1} s del registro (lectura {2}); se omite la holgura anterior.',
  ],
  [
    'The last row has no load and is taken for the break; if it was only appended to the file, the record may have stopped before the break.',
    'La última fila no tiene carga y se toma por la rotura; si solo se añadió al fichero, el registro pudo terminar antes de la rotura.',
  ],
  [
    'The break is after reading {1}; {2} after it {3} not evaluated.',
    'La rotura está tras la lectura {1}; lo que sigue ({2}) no se evalúa.',
  ],
  ['the one reading', 'una lectura'],
  ['the {1} readings', '{1} lecturas'],
  [
    'The force runs out slowly instead of breaking off; the break is put where it falls below 10 % of the maximum.',
    'La fuerza se apaga despacio en vez de caer; la rotura se pone donde baja del 10 % del máximo.',
  ],
  ['The break was marked at reading {1}.', 'La rotura se marcó en la lectura {1}.'],
  [
    'The specimen was let off from reading {1} on; no break is recorded.',
    'La probeta se descargó desde la lectura {1}; no hay rotura registrada.',
  ],
  ['The record stops while the load still rises.', 'El registro termina mientras la carga aún sube.'],
  [
    'The record stops at {1} % of the maximum load without the fall that a break makes.',
    'El registro termina al {1} % de la carga máxima sin la caída propia de una rotura.',
  ],
  [
    'The elastic line is taken from the readings after it, whose foot takes it up.',
    'La recta elástica se toma de las lecturas posteriores, cuyo pie lo compensa.',
  ],
  ['What it moves is withheld or says so.', 'Lo que desplaza se omite o lo indica.'],

  // What was not given, and why.
  ['The curve has no strain.', 'La curva no tiene deformación.'],
  ['The curve has no readings of force or stress.', 'La curva no tiene lecturas de fuerza ni de tensión.'],
  [
    'The curve has no readings of force or stress; check the channel in the readout profile.',
    'La curva no tiene lecturas de fuerza ni de tensión; revise el canal en el perfil de lectura.',
  ],
  [
    'The curve has no readings of crosshead travel.',
    'La curva no tiene lecturas del recorrido del travesaño.',
  ],
  [
    'The gauge length of the extensometer is not known; give gaugeLength with the specimen.',
    'No se conoce la longitud base del extensómetro; indíquela con la probeta.',
  ],
  [
    'The extension has fewer than two readings while the load rises, so there is no strain.',
    'La extensión tiene menos de dos lecturas mientras sube la carga, así que no hay deformación.',
  ],
  [
    'The extension stays constant (within {1} %) while the load rises to its maximum: no extensometer on the specimen, or it was not connected.',
    'La extensión no cambia (dentro del {1} %) mientras la carga sube al máximo: no había extensómetro en la probeta o no estaba conectado.',
  ],
  [
    'The specimen was let off from reading {1} on and no break is recorded.',
    'La probeta se descargó desde la lectura {1} y no hay rotura registrada.',
  ],
  [
    'No break is recorded: the record stops at {1} % of the maximum force.',
    'No hay rotura registrada: el registro termina al {1} % de la fuerza máxima.',
  ],
  [
    'A flat specimen needs final width and final thickness, both at the neck.',
    'Una probeta plana necesita el ancho final y el espesor final, ambos en la estricción.',
  ],
  [
    'All {1} readings of the load are zero or below, so nothing was pulled; check the channel and its zero.',
    'Las {1} lecturas de la carga son cero o menores, así que no se ensayó nada; revise el canal y su cero.',
  ],
  [
    'The largest stress would be {1} MPa, which no metal bears; the unit of the load or of a dimension is wrong.',
    'La tensión mayor sería {1} MPa, que ningún metal soporta; la unidad de la carga o de una dimensión es errónea.',
  ],
  ['It needs {1}, which is withheld.', 'Necesita {1}, que se ha omitido.'],
  ['It needs the specimen’s dimensions.', 'Necesita las dimensiones de la probeta.'],
  [
    'The curve was given without a specimen, so there are no dimensions; give the specimen file.',
    'La curva se dio sin probeta, así que no hay dimensiones; dé el fichero de la probeta.',
  ],
  [
    'There is no cross-section to divide the force by; give the measured dimensions of the specimen.',
    'No hay sección por la que dividir la fuerza; dé las dimensiones medidas de la probeta.',
  ],
  [
    'The smallest section after the break was not measured; enter finalDiameter, or finalWidth and finalThickness.',
    'No se midió la sección menor tras la rotura; anote el diámetro final, o el ancho y el espesor finales.',
  ],
  [
    'The section was not measured; correct the specimen, giving its sizes and the reason, and everything that needs them is worked out.',
    'No se midió la sección; corrija la probeta con sus medidas y el motivo, y se calcula todo lo que las necesita.',
  ],
  [
    'The original section was not measured, so there is nothing to compare the final one with; correct the specimen, giving its sizes and the reason.',
    'No se midió la sección inicial, así que no hay con qué comparar la final; corrija la probeta con sus medidas y el motivo.',
  ],
  [
    'The original cross-section is not known, so there is nothing to compare the final one with.',
    'No se conoce la sección inicial, así que no hay con qué comparar la final.',
  ],
  [
    'The specimen is round; give the final diameter (two, at right angles) instead of width and thickness.',
    'La probeta es redonda; dé el diámetro final (dos, en ángulo recto) en vez de ancho y espesor.',
  ],
  [
    'Reduction of area is defined here for round and flat specimens; a tube, a strip from pipe or a weighed section has no standard final section.',
    'La estricción se define aquí para probetas redondas y planas; un tubo, una tira de tubo o una sección pesada no tiene sección final normalizada.',
  ],
  [
    'No cross-section with these dimensions exists (the wall leaves no bore, or the strip is wider than the bore); check them against the specimen.',
    'No existe ninguna sección con estas dimensiones (la pared no deja hueco, o la tira es más ancha que el hueco); compárelas con la probeta.',
  ],
  [
    'The curve gives stress and no force, so the maximum force is not known.',
    'La curva da tensión y no fuerza, así que no se conoce la fuerza máxima.',
  ],
  [
    'The force still rises where the record stops, so there is no maximum force to read it at.',
    'La fuerza aún sube donde termina el registro, así que no hay fuerza máxima donde leerlo.',
  ],
  [
    'The force still rises where the record stops ({1} at reading {2}) and no break is recorded; that reading is only a lower bound.',
    'La fuerza aún sube donde termina el registro ({1} en la lectura {2}) y no hay rotura registrada; esa lectura es solo un límite inferior.',
  ],
  [
    'The record ends without the fall of force that a break makes; its last reading is taken for it.',
    'El registro termina sin la caída de fuerza propia de una rotura; se toma por ella su última lectura.',
  ],
  [
    'The record ends without the fall of force that a break makes; its last reading is taken for the break. If the pull was stopped or the extensometer came off before, the true value is larger.',
    'El registro termina sin la caída de fuerza propia de una rotura; se toma por ella su última lectura. Si el ensayo se paró o el extensómetro se quitó antes, el valor verdadero es mayor.',
  ],
  [
    'The record shows no yield point: at the start of yielding {1}; a fall of {2} % with a rise after it would make one.{3}',
    'El registro no muestra punto de fluencia: al empezar la fluencia {1}; lo sería una caída del {2} % con una subida después.{3}',
  ],
  [
    ' Neighbouring readings differ by up to {1} % there, so a yield point may have passed between them.',
    ' Allí las lecturas vecinas difieren hasta un {1} %, así que pudo pasar uno entre ellas.',
  ],
  ['the force does not fall', 'la fuerza no cae'],
  [
    'Neighbouring readings at the upper yield differ by {1} %, so the readings come too slowly for it; the true upper yield may be higher.',
    'Las lecturas vecinas al límite superior difieren un {1} %: llegan demasiado despacio para él; el verdadero puede ser mayor.',
  ],
  [
    'The curve has a yield point; upper and lower yield strength describe it better.',
    'La curva tiene punto de fluencia; la describen mejor los límites elásticos superior e inferior.',
  ],
  [
    'Between {1} % plastic strain{2} and the maximum force ({3} %) the curve is too short for a line; state another range.',
    'Entre el {1} % de deformación plástica{2} y la fuerza máxima ({3} %) la curva es demasiado corta para una recta; indique otro intervalo.',
  ],
  ['The force still rises where the record stops.', 'La fuerza aún sube donde termina el registro.'],

  [
    'The readout shows its peak alone, so there is no curve; this needs a readout that shows the load of the moment.',
    'El indicador solo muestra su máximo, así que no hay curva; esto necesita un indicador que muestre la carga del momento.',
  ],
  [
    'No peak above zero was shown, so nothing was pulled; see that the print key was pressed after the break.',
    'No se mostró ningún máximo por encima de cero, así que no se ensayó nada; vea que la tecla de impresión se pulsara tras la rotura.',
  ],
  [
    'The readout shows its peak alone: {1} recorded and no curve, so nothing can be checked against one. See that the peak was cleared before the pull.',
    'El indicador solo muestra su máximo: se registró {1} y ninguna curva, así que no hay con qué contrastarlo. Vea que el máximo se borrara antes del ensayo.',
  ],
  ['one value was', 'un valor'],
  ['{1} values were', '{1} valores'],

  // The readout.
  ['the readout', 'el indicador'],
  ['The readout', 'El indicador'],
  [
    'Bytes arrive from {1} but no lines; check the speed of the port and the line end in the profile.',
    'De {1} llegan bytes pero no líneas; revise la velocidad del puerto y el fin de línea del perfil.',
  ],
  [
    'There is no fresh reading from {1}; see that it is switched on and sends.',
    'No llega ninguna lectura nueva de {1}; vea que esté encendido y envíe.',
  ],
  ['There is no fresh reading from {1}: {2}', 'No llega ninguna lectura nueva de {1}: {2}'],
  [
    'Lines arrive from {1}, but none of them fits the profile “{2}”, so nothing is read; have the lines learned, or choose another profile or speed of the port.',
    'De {1} llegan líneas, pero ninguna encaja con el perfil «{2}», así que no se lee nada; haga que se aprendan las líneas, o elija otro perfil u otra velocidad del puerto.',
  ],
  [
    '{1} has gone: {2} It is being looked for; everything before is safe, and the gap is marked.',
    '{1} ha desaparecido: {2} Se está buscando; todo lo anterior está a salvo y el hueco queda marcado.',
  ],
  ['{1} has gone: {2}', '{1} ha desaparecido: {2}'],
  [
    'The connection to {1} is lost; check the adapter and its cable. What was received is kept.',
    'Se ha perdido la conexión con {1}; revise el adaptador y su cable. Lo recibido se guarda.',
  ],
  [
    '{1} gave no answer to being opened; unplug the adapter, plug it in again and retry.',
    '{1} no respondió al abrirlo; desenchufe el adaptador, vuelva a enchufarlo y reintente.',
  ],
  [
    '{1} is in use by {2}; close it there and retry; the choice of port is kept.',
    '{1} lo está usando {2}; ciérrelo allí y reintente; la elección del puerto se conserva.',
  ],
  [
    '{1} does not take these line settings (baud rate, data bits, parity); choose others in the readout profile.',
    '{1} no admite estos ajustes de línea (baudios, bits de datos, paridad); elija otros en el perfil de lectura.',
  ],
  [
    '{1} could not be opened ({2}); check the adapter and retry.',
    '{1} no se pudo abrir ({2}); revise el adaptador y reintente.',
  ],
  [
    'There is no port {1}; plug the adapter in, or give the path of another port.',
    'No hay ningún puerto {1}; enchufe el adaptador o indique la ruta de otro puerto.',
  ],
  [
    '{1} is not open; nothing was sent to the readout.',
    '{1} no está abierto; no se ha enviado nada al indicador.',
  ],
  [
    'The readout on {1} did not take what was sent to it; check its cable and its flow control.',
    'El indicador de {1} no admitió lo que se le envió; revise su cable y su control de flujo.',
  ],
  [
    "Another adapter ({1}) is now at {2}, not the readout's ({3}); plug the readout's in, or choose the port anew.",
    'En {2} hay ahora otro adaptador ({1}), no el del indicador ({3}); enchufe el del indicador o elija otra vez el puerto.',
  ],
  [
    "The readout's adapter ({1}) is not plugged in; plug it in, or choose another port.",
    'El adaptador del indicador ({1}) no está enchufado; enchúfelo o elija otro puerto.',
  ],
  [
    'The recorder ended unexpectedly and is back: it goes on with the same record, and what it had kept is safe. What the readout sent meanwhile may be missing; that gap is marked in the record.',
    'El registrador terminó de improviso y ha vuelto: sigue con el mismo registro, y lo que había guardado está a salvo. Puede faltar lo que el indicador envió entretanto; ese hueco queda marcada en el registro.',
  ],
  [
    'Another running program has the archive {1} open; close it there, or choose another archive. Nothing was changed.',
    'Otro programa en marcha tiene abierto el archivo {1}; ciérrelo allí o elija otro archivo. No se cambió nada.',
  ],
  [
    'The file {1} is no archive (it is no database at all). Nothing was changed; choose another file.',
    'El fichero {1} no es un archivo de Gaugemark (no es ninguna base de datos). No se cambió nada; elija otro fichero.',
  ],
  [
    'The archive {1} has form {2} and this program knows forms up to {3}: it was written by a newer version. Nothing was changed; use that version.',
    'El archivo {1} tiene la forma {2} y este programa conoce formas hasta la {3}: lo escribió una versión más nueva. No se cambió nada; use esa versión.',
  ],
  [
    'No file can be made at {1}: its folder is there and takes none. Choose a folder on a disk of this computer.',
    'No se puede hacer un fichero en {1}: su carpeta existe y no admite ninguno. Elija una carpeta en un disco de este ordenador.',
  ],
  [
    "The archive {1} can't be opened: its folder is missing or can't be entered. Choose an existing folder or make it first.",
    'No se puede abrir el archivo {1}: su carpeta falta o no se puede entrar en ella. Elija una carpeta que exista o créela antes.',
  ],
  [
    'The medium that holds {1} gave an error ({2}). What was kept before is untouched; check the disk and its cable.',
    'El soporte que contiene {1} dio un error ({2}). Lo guardado antes está intacto; revise el disco y su cable.',
  ],
  // Files that are written beside the archive: what is put in last is one of these.
  ['export', 'exportación'],
  ['table', 'tabla'],
  ['picture', 'imagen'],
  ['certificate', 'hoja del certificado'],
  ['photo', 'foto'],
  ['readout profile', 'hoja del perfil de lectura'],
  ['rule pack', 'hoja de reglas'],
  ['backup', 'copia de seguridad'],
  [
    'What was written of the {1} is gone again from {2}: its medium was pulled, or its folder taken away. Put it back, or choose another place, and do it again. The archive is untouched.',
    'Lo que se había escrito de la {1} ya no está en {2}: se sacó su soporte o se quitó su carpeta. Devuélvalo a su sitio o elija otro, y repítalo. El archivo no se ha tocado.',
  ],
  [
    'The backup could not be given the name {1}: another program holds it, or the medium gave an error. There was no archive there, and the backup is untouched; try again, or restore to another place.',
    'A la copia de seguridad no se le pudo dar el nombre {1}: otro programa lo retiene o el soporte dio un error. Allí no había ningún archivo y la copia no se ha tocado; inténtelo de nuevo o restáurela en otro sitio.',
  ],
  [
    'The backup could not be given the name {1}, and the archive that stood there could not be put back: it lies whole at {2}, with its log and spools beside it. Close what holds files in that folder, then rename it back or restore again.',
    'A la copia de seguridad no se le pudo dar el nombre {1}, y el archivo que estaba allí no se pudo devolver a su sitio: está entero en {2}, con su registro y sus colas al lado. Cierre lo que retiene ficheros en esa carpeta y luego devuélvale el nombre o restaure de nuevo.',
  ],
  [
    'The backup could not be given the name {1}: another program holds it, or the medium gave an error. The archive stands where it stood, unchanged; close what holds files in that folder and restore again.',
    'A la copia de seguridad no se le pudo dar el nombre {1}: otro programa lo retiene o el soporte dio un error. El archivo está donde estaba, sin cambios; cierre lo que retiene ficheros en esa carpeta y restaure de nuevo.',
  ],
  [
    'The {1} did not arrive whole at {2}, so it was not kept; try another disk. The archive is untouched.',
    'La {1} no llegó entera a {2}, así que no se guardó; pruebe otro disco. El archivo no se ha tocado.',
  ],
  [
    'The certificate {1} is issued and kept in the archive, and keeps its number when it is written again: {2}',
    'El certificado {1} está emitido y guardado en el archivo, y conserva su número cuando se escribe de nuevo: {2}',
  ],
  [
    'The calibration is kept; its certificate can be written again: {1}',
    'La calibración está guardada; su certificado se puede escribir de nuevo: {1}',
  ],
  [
    'The disk that holds {1} is full, so the {2} was not written; free some space or choose another disk. The archive is untouched.',
    'El disco que contiene {1} está lleno, así que la {2} no se escribió; libere espacio o elija otro disco. El archivo no se ha tocado.',
  ],
  [
    "The file {1} can't be written (no permission, or a read-only medium); choose another place. The archive is untouched.",
    'El fichero {1} no se puede escribir (sin permiso, o en un soporte de solo lectura); elija otro sitio. El archivo no se ha tocado.',
  ],
  [
    "The folder of {1} does not exist or can't be entered; make it first or choose another one.",
    'La carpeta de {1} no existe o no se puede entrar en ella; créela antes o elija otra.',
  ],
  [
    'No file can be made at {1}: its folder is there and takes none; choose another one. The archive is untouched.',
    'No se puede crear ningún fichero en {1}: su carpeta existe y no admite ninguno; elija otra. El archivo no se ha tocado.',
  ],
  [
    'The medium that holds {1} gave an error, so the {2} was not written; choose another one. The archive is untouched.',
    'El soporte que contiene {1} dio un error, así que la {2} no se escribió; elija otro. El archivo no se ha tocado.',
  ],
  [
    'The check was stopped; nothing is said of what it had not come to.',
    'La comprobación se detuvo; de aquello a lo que no había llegado no se dice nada.',
  ],
  [
    'The backup was stopped; no file of it was kept, and earlier ones are as they were.',
    'La copia de seguridad se detuvo; no se conservó ningún fichero de ella y las anteriores están como estaban.',
  ],
  ['It was stopped; nothing of it was kept.', 'Se detuvo; no se guardó nada de ello.'],
  [
    'Splitting was stopped; no file of it was kept, and the archive is as it was.',
    'La división se detuvo; no se conservó ningún fichero de ella, y el archivo está como estaba.',
  ],
  [
    'Restoring was stopped; the archive is as it was.',
    'Se detuvo la restauración; el archivo está como estaba.',
  ],
  ['It was stopped; no file was written.', 'Se detuvo; no se escribió ningún fichero.'],
  [
    'The archive is being checked, a file imported or another archive taken in, and a record could not be kept meanwhile; stop that in the archive, or wait for it, and make ready again.',
    'Se está comprobando el archivo, importando un fichero o incorporando otro archivo, y entretanto no se podría guardar un registro; deténgalo en el archivo, o espere, y vuelva a preparar.',
  ],
  [
    'A part of the archive {1} is damaged. Nothing was changed; gaugemark archive check --archive "{2}" names every pull that is affected.',
    'Una parte del archivo {1} está dañada. No se cambió nada; gaugemark archive check --archive "{2}" nombra cada ensayo afectado.',
  ],
  [
    "The archive {1} can't be written to (read-only file, folder or medium), so nothing can be recorded into it. Nothing was changed; give write permission or choose another file. gaugemark archive list, show, export, check and backup read it as it is.",
    'No se puede escribir en el archivo {1} (fichero, carpeta o soporte de solo lectura), así que nada se puede registrar en él. No se cambió nada; dé permiso de escritura o elija otro fichero. gaugemark archive list, show, export, check y backup lo leen tal como está.',
  ],
  [
    'The disk that holds {1} is full, so this was not kept, not even a part of it. What was kept before is safe; free some space and do it again.',
    'El disco que contiene {1} está lleno, así que esto no se guardó, ni siquiera una parte. Lo guardado antes está a salvo; libere espacio y hágalo de nuevo.',
  ],
  [
    'The disk that holds {1} is full. What was kept before is safe; free some space and the rest is written in order.',
    'El disco que contiene {1} está lleno. Lo guardado antes está a salvo; libere espacio y el resto se escribe en orden.',
  ],
  [
    "The archive can't be written to and memory is full: readings are being lost. Free space on its disk now.",
    'No se puede escribir en el archivo y la memoria está llena: se pierden lecturas. Libere espacio en su disco ya.',
  ],
  [
    "Less than {1} MiB are free on the archive's disk; free some space before the next pull.",
    'Quedan menos de {1} MiB libres en el disco del archivo; libere espacio antes del próximo ensayo.',
  ],
  [
    'The archive is not open; what was kept before is safe.',
    'El archivo no está abierto; lo guardado antes está a salvo.',
  ],

  // What was typed.
  [
    'Nothing is entered; type a value with its unit, for example {1}.',
    'No hay nada escrito; escriba un valor con su unidad, por ejemplo {1}.',
  ],
  [
    '"{1}" is not one number with a unit; type it like {2}.',
    '«{1}» no es un número con unidad; escríbalo como {2}.',
  ],
  ['"{1}" has no unit; add one, for example {2}.', '«{1}» no tiene unidad; añádala, por ejemplo {2}.'],
  [
    '"{1}" has a letter among its figures; type 0 for the letter O and 1 for the letters l and I.',
    '"{1}" tiene una letra entre sus cifras; escriba 0 en lugar de la letra O y 1 en lugar de las letras l e I.',
  ],
  [
    'The unit "{1}" in "{2}" is not known; use for example mm, in, N, kN, lbf, MPa, psi or ksi.',
    'No se conoce la unidad «{1}» de «{2}»; use por ejemplo mm, in, N, kN, lbf, MPa, psi o ksi.',
  ],
  [
    '"{1}" is beyond anything that can be measured; check the number and its exponent.',
    '«{1}» está más allá de lo que se puede medir; revise el número y su exponente.',
  ],
  [
    '"{1}" is not greater than zero; measure again and type the value read.',
    '«{1}» no es mayor que cero; mida otra vez y escriba el valor leído.',
  ],

  // Photos.
  ['{1} Nothing was kept.', '{1} No se guardó nada.'],
  [
    'No camera is connected. Connect one, or add a photo from a file.',
    'No hay ninguna cámara conectada. Conecte una o añada una foto desde un archivo.',
  ],
  [
    'The system lets this program use no camera. Allow it in the settings of the system, or add a photo from a file.',
    'El sistema no permite a este programa usar ninguna cámara. Permítalo en los ajustes del sistema o añada una foto desde un archivo.',
  ],
  [
    'The camera gives no picture; another program may be using it. Close that, or add a photo from a file.',
    'La cámara no da imagen; quizá la usa otro programa. Ciérrelo o añada una foto desde un archivo.',
  ],
  [
    'The camera gave no picture. Try again, or add a photo from a file.',
    'La cámara no dio ninguna imagen. Inténtelo de nuevo o añada una foto desde un archivo.',
  ],
  [
    'The camera is open already, on its sheet over the window.',
    'La cámara ya está abierta, en su hoja sobre la ventana.',
  ],
  [
    'The camera was let go of after {1} minutes. Open it again.',
    'La cámara se soltó al cabo de {1} minutos. Ábrala de nuevo.',
  ],
  [
    'It is no photo: its content is neither JPEG nor PNG, whatever its name says. Choose the picture as the camera wrote it, or save it as JPEG.',
    'No es una foto: su contenido no es JPEG ni PNG, diga lo que diga su nombre. Elija la imagen tal como la escribió la cámara o guárdela como JPEG.',
  ],
  [
    'The photo is damaged or cut off: it does not go on to its end. Copy it from the camera once more.',
    'La foto está dañada o cortada: no llega hasta su final. Cópiela otra vez de la cámara.',
  ],
  [
    'The photo has {1} × {2} pixels; at most {3} million are kept. Save it smaller.',
    'La foto tiene {1} × {2} píxeles; se guardan como mucho {3} millones. Guárdela más pequeña.',
  ],
  [
    'The file has {1} bytes; a photo of at most {2} bytes is kept. Save it smaller, or choose another file.',
    'El archivo tiene {1} bytes; se guarda una foto de {2} bytes como mucho. Guárdela más pequeña o elija otro archivo.',
  ],
  // What is wrong with a file, behind its name.
  ['"{1}": {2}', '«{1}»: {2}'],
];
