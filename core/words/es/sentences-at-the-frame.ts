/** What is refused at the frame: readout, record, zero, typed pull, what a driver says. English forms with their Spanish. */
export const ES_FRAME_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  // Steps of a pull.
  [
    'A pull is being recorded; close its record first.',
    'Se está registrando un ensayo; cierre antes su registro.',
  ],
  [
    'A pull is being recorded; close it before the next is made ready.',
    'Se está registrando un ensayo; ciérrelo antes de preparar el siguiente.',
  ],
  [
    'No readout is open; choose a port and a profile first.',
    'No hay ningún indicador abierto; elija antes un puerto y un perfil.',
  ],
  [
    'No readout is open; choose one, or name source and profile.',
    'No hay ningún indicador abierto; elija uno, o nombre la fuente y el perfil.',
  ],
  [
    'There is no ended pull to put away; the {1}.',
    'No hay ningún ensayo terminado que dar por concluido; {1}.',
  ],
  [
    'No pull has been made ready; the {1} and nothing was changed.',
    'No se ha preparado ningún ensayo; {1} y no se cambió nada.',
  ],
  ['{1}; now the {2} and nothing was changed.', '{1}; ahora {2} y no se cambió nada.'],
  [
    'A pull can be started by hand only when it has been made ready and has not started yet',
    'Un ensayo solo se puede comenzar a mano cuando está preparado y aún no ha empezado',
  ],
  [
    'A break can be marked only while a pull is running or stopped',
    'Una rotura solo se puede marcar mientras un ensayo está en marcha o con el fin marcado',
  ],
  ['There is no break to take back', 'No hay ninguna rotura que deshacer'],
  ['There is no running pull to stop', 'No hay ningún ensayo en marcha cuyo fin marcar'],
  ['Only a stopped pull can be continued', 'Solo se puede continuar un ensayo con el fin marcado'],
  ['There is no open record to close', 'No hay ningún registro abierto que cerrar'],
  [
    'Both instruments are on the same port; choose the port of the second one.',
    'Ambos instrumentos están en el mismo puerto; elija el puerto del segundo.',
  ],
  [
    '{1} Confirm that this is known, or name other instruments; nothing was begun.',
    '{1} Confirme que se sabe o nombre otros instrumentos; no se empezó nada.',
  ],
  [
    'The calibration of the {1} was due on {2} and is overdue (certificate {3}).',
    'La calibración vencía el {2} y está vencida: {1} (certificado {3}).',
  ],
  [
    'No calibration of the {1} is on record for this day.',
    'No consta ninguna calibración para este día: {1}.',
  ],
  [
    'No frame or force channel of the register is named, so no calibration of the force is on record.',
    'No se ha nombrado ninguna máquina ni canal de fuerza, así que no consta ninguna calibración de la fuerza.',
  ],
  [
    'The force is taken with scale 1 and offset 0 as they come, and nobody has set them or named a calibrated force channel.',
    'La fuerza se toma con escala 1 y desplazamiento 0, tal como vienen, y nadie los ha fijado ni ha nombrado un canal de fuerza calibrado.',
  ],
  [
    'There is no room beside the archive for the spool, so a recording would not be safe; free some space on its disk and try again.',
    'Junto al archivo no hay sitio para el búfer de disco, así que un registro no estaría a salvo; libere espacio en su disco e inténtelo de nuevo.',
  ],
  [
    "The archive can't be written to, so the open record can't be taken up again; what was kept is safe. Free some space on its disk and try again.",
    'No se puede escribir en el archivo, así que no se puede retomar el registro abierto; lo guardado está a salvo. Libere espacio en su disco e inténtelo de nuevo.',
  ],

  // Zero.
  [
    'Zero can be taken only while a readout is open and before a pull has started; the {1}.',
    'El cero solo se puede tomar con un indicador abierto y antes de que empiece un ensayo; {1}.',
  ],
  ['The readout has no channel "{1}".', 'El indicador no tiene ningún canal «{1}».'],
  [
    'The channel "{1}" shows no value now ({2}), so it can\'t be taken as zero.',
    'El canal «{1}» no muestra ahora ningún valor ({2}), así que no se puede tomar como cero.',
  ],
  [
    'The profile names no zero command, so nothing was sent; press zero on the readout itself.',
    'El perfil no nombra ninguna orden de cero, así que no se envió nada; pulse el cero en el propio indicador.',
  ],

  // A pull that is typed.
  [
    '{1} over the measured section would be {2} MPa ({3} psi)',
    '{1} sobre la sección medida serían {2} MPa ({3} psi)',
  ],
  [
    '{1}, which no metal bears; the unit of the load or of a dimension is wrong.',
    '{1}, que ningún metal soporta; la unidad de la carga o de una dimensión es errónea.',
  ],
  [
    '{1}, more than all but drawn wire bears: is the load right, and its unit?',
    '{1}, más de lo que soporta todo salvo el alambre trefilado: ¿es correcta la carga, y su unidad?',
  ],
  [
    '{1}, less than any structural metal: is the load right, and its unit?',
    '{1}, menos que cualquier metal estructural: ¿es correcta la carga, y su unidad?',
  ],
  [
    'The yield load {1} is above the peak load {2}; the peak is the largest load of all: read both again.',
    'La carga de fluencia {1} es mayor que la carga máxima {2}; la máxima es la mayor de todas: lea ambas de nuevo.',
  ],
  [
    'An elongation of {1} can\'t be; type it in percent of the gauge length, for example "22 %".',
    'Un alargamiento del {1} no es posible; escríbalo en porcentaje de la longitud entre marcas, por ejemplo «22 %».',
  ],
  [
    'An elongation of {1} is more than almost any metal shows: is it right, and in percent?',
    'Un alargamiento del {1} es más de lo que muestra casi cualquier metal: ¿es correcto, y en porcentaje?',
  ],

  // Two instruments.
  [
    '{1} of {2} readings carry a value of the second instrument, the newest that it had sent by then and no older than {3} ms; by the recorder’s clock it stood behind the load by {4} ms on average, {5} ms at most.',
    '{1} de {2} lecturas llevan un valor del segundo instrumento, el último que había enviado hasta entonces y de no más de {3} ms; según el reloj del registrador iba por detrás de la carga {4} ms en promedio, {5} ms como mucho.',
  ],

  // Lines.
  [
    'The line is longer than any reading; it is kept raw only.',
    'La línea es más larga que cualquier lectura; solo se guarda en bruto.',
  ],
  [
    'The line has not the layout of the profile; it is kept raw only.',
    'La línea no tiene la disposición del perfil; solo se guarda en bruto.',
  ],
  [
    'The check at the end of the line is missing or wrong; it is kept raw only.',
    'La comprobación al final de la línea falta o es errónea; solo se guarda en bruto.',
  ],
  [
    'None of the fields holds a number or a known word; the line is kept raw only.',
    'Ningún campo contiene un número ni una palabra conocida; la línea solo se guarda en bruto.',
  ],
  [
    'A heading or remark that the profile leaves out.',
    'Un encabezado o una observación que el perfil omite.',
  ],
  ['The line did not end; it is kept raw only.', 'La línea no terminó; solo se guarda en bruto.'],
  [
    'The beginning of the line came too long before its end; it is kept raw only.',
    'El principio de la línea llegó demasiado antes que su final; solo se guarda en bruto.',
  ],
  [
    'The line was under way when the port was opened; its beginning may be missing.',
    'La línea ya estaba llegando cuando se abrió el puerto; puede faltar su principio.',
  ],

  // Ports and addresses.
  [
    'A port needs a path, for example /dev/ttyUSB0 or COM3.',
    'Un puerto necesita una ruta, por ejemplo /dev/ttyUSB0 o COM3.',
  ],
  [
    '"{1}" is no address of this kind; write it as {2}.',
    '«{1}» no es una dirección de esta clase; escríbala como {2}.',
  ],
  [
    '{1} is {2}, not a serial port; give the path of a port.',
    '{1} no es un puerto serie, sino {2}; indique la ruta de un puerto.',
  ],
  ['a folder', 'una carpeta'],
  ['a plain file', 'un fichero corriente'],
  ['a device of another kind', 'un dispositivo de otra clase'],
  ['{1} may not be opened by {2}; {3}.', '{2} no tiene permiso para abrir {1}; {3}.'],
  ['ask the administrator for access to it', 'pida acceso al administrador'],
  [
    'it belongs to the group "{1}": have the user {2} added to it (sudo usermod -a -G {3}), then sign out and sign in again',
    'pertenece al grupo «{1}»: haga que se agregue a él el usuario {2} (sudo usermod -a -G {3}), cierre la sesión e iníciela de nuevo',
  ],
  [
    "The readout's adapter ({1}) is now {2} instead of {3}.",
    'El adaptador del indicador ({1}) es ahora {2} en lugar de {3}.',
  ],
  [
    "{1} could each be the readout's adapter ({2}); choose the port that is meant.",
    'Cualquiera de {1} podría ser el adaptador del indicador ({2}); elija el puerto que corresponda.',
  ],
  [
    'The control lines of {1} could not be set ({2}); the readout is read all the same.',
    'No se pudieron fijar las líneas de control de {1} ({2}); el indicador se lee de todos modos.',
  ],
  [
    '{1} takes no more bytes; check that the other end of the line is open and being read.',
    '{1} no admite más bytes; compruebe que el otro extremo de la línea esté abierto y se esté leyendo.',
  ],
  ['The {1} is not open; nothing was sent.', '{1}: no está abierto; no se envió nada.'],
  ['{1} is not open; nothing was sent.', '{1} no está abierto; no se envió nada.'],
  [
    '{1} did not take what was sent to it; check the device server.',
    '{1} no admitió lo que se le envió; revise el servidor de dispositivos.',
  ],
  [
    '{1} does not answer; check its address and that it is switched on.',
    '{1} no responde; revise su dirección y que esté encendido.',
  ],
  [
    '{1} refuses the connection; check the port number and whether another program is connected to it.',
    '{1} rechaza la conexión; revise el número de puerto y si otro programa está conectado a él.',
  ],
  [
    "{1} can't be reached; check the address and the network.",
    'No se puede llegar a {1}; revise la dirección y la red.',
  ],

  // Registers, recordings, the simulated frame.
  [
    'The profile "{1}" describes Modbus registers, which are asked for at {2} or {3}; give the port so, or choose a profile of lines.',
    'El perfil «{1}» describe registros Modbus, que se piden en {2} o {3}; indique el puerto así, o elija un perfil de líneas.',
  ],
  [
    'The profile "{1}" describes lines, not Modbus registers; choose a profile with registers.',
    'El perfil «{1}» describe líneas y no registros Modbus; elija un perfil con registros.',
  ],
  [
    '{1} is read only: Gaugemark writes no register.',
    '{1} solo se lee: Gaugemark no escribe ningún registro Modbus.',
  ],
  [
    '{1} refuses the registers asked for (exception {2}, {3}); check address and kind of register in the profile.',
    '{1} rechaza los registros pedidos (excepción {2}, {3}); revise la dirección y la clase de registro en el perfil.',
  ],
  ['not in the standard', 'fuera de la norma'],
  ['illegal function', 'función no admitida'],
  ['illegal data address', 'dirección de datos no admitida'],
  ['illegal data value', 'valor de datos no admitido'],
  ['server device failure', 'fallo del dispositivo'],
  ['acknowledge', 'petición aceptada, aún sin terminar'],
  ['server device busy', 'dispositivo ocupado'],
  ['gateway path unavailable', 'ruta de la pasarela no disponible'],
  ['gateway target device failed to respond', 'el dispositivo tras la pasarela no respondió'],
  [
    '{1} is larger than any recording ({2} bytes); choose another file.',
    '{1} es mayor que cualquier grabación ({2} bytes); elija otro fichero.',
  ],
  ['There is no file {1}; check its name.', 'No existe el fichero {1}; revise su nombre.'],
  ["{1} can't be read ({2}); check its permissions.", '{1} no se puede leer ({2}); revise sus permisos.'],
  [
    '{1} is no file of recorded bytes; a port is opened as a port, not as a recording.',
    '{1} no es un fichero de bytes grabados; un puerto se abre como puerto, no como grabación.',
  ],
  [
    'Line {1} of {2} is not "<µs> <bytes in hex>" with times that go up; the recording is damaged there.',
    'La línea {1} de {2} no es «<µs> <bytes en hexadecimal>» con tiempos crecientes; la grabación está dañada ahí.',
  ],
  ['The recording {1} has come to its end.', 'La grabación {1} ha llegado a su fin.'],
  ['{1} is a recording: nothing can be sent to it.', '{1} es una grabación: no se le puede enviar nada.'],
  ['There is no scenario "{1}"; choose one of {2}.', 'No hay ningún escenario «{1}»; elija uno de {2}.'],
  [
    'The simulated frame can\'t speak in the profile "{1}"; choose one of the profiles of the simulated frame.',
    'La máquina simulada no puede hablar según el perfil «{1}»; elija uno de los perfiles de la máquina simulada.',
  ],

  // Recorder and window.
  [
    'The recorder did not answer "{1}" ({2}). What is recorded is safe; wait a moment and try again.',
    'El registrador no respondió a «{1}» ({2}). Lo registrado está a salvo; espere un momento e inténtelo de nuevo.',
  ],
  [
    'The recorder answered "{1}" in a form that this version does not know; window and recorder may be of different versions: close both and start again.',
    'El registrador respondió a «{1}» en una forma que esta versión no conoce; la ventana y el registrador pueden ser de versiones distintas: cierre ambos y empiece de nuevo.',
  ],
  [
    'The connection to the recorder has ended; what it had recorded is safe. Try again in a moment.',
    'La conexión con el registrador ha terminado; lo que había registrado está a salvo. Inténtelo de nuevo en un momento.',
  ],
  [
    'The recorder has not answered "{1}" in time; what it had recorded is safe. Try again in a moment.',
    'El registrador no respondió a tiempo a «{1}»; lo que había registrado está a salvo. Inténtelo de nuevo en un momento.',
  ],
  [
    'This recorder has no request "{1}"; window and recorder may be of different versions.',
    'Este registrador no tiene ninguna petición «{1}»; la ventana y el registrador pueden ser de versiones distintas.',
  ],
  [
    '"{1}" failed because of a fault in the program ({2}). What is recorded is safe.',
    '«{1}» falló por un error del programa ({2}). Lo registrado está a salvo.',
  ],
  [
    '"{1}" was asked for in a wrong form ({2}). Nothing was done.',
    '«{1}» se pidió en una forma errónea ({2}). No se hizo nada.',
  ],
  [
    'Only the program’s own page may ask. Nothing was done.',
    'Solo puede pedir la página propia del programa. No se hizo nada.',
  ],
];
