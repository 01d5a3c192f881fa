/**
 * What is told while a record is open or a readout is listened to, of readout, archive and spool: English forms with
 * their Spanish. What follows a sentence stands with `{1}` before it, so that the sentence may have semicolons in it.
 */
export const ES_ALARM_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  ['the second instrument ({1})', 'el segundo instrumento ({1})'],
  ['{1} Recording stays open.', '{1} El registro sigue abierto.'],
  ['{1} The bytes are kept.', '{1} Los bytes se guardan.'],
  ['{1} Every line is kept.', '{1} Todas las líneas se guardan.'],
  [
    '{1} Recording goes on in memory and in the spool; nothing is lost so far.',
    '{1} El registro sigue en la memoria y en el búfer de disco; hasta ahora no se ha perdido nada.',
  ],
  [
    "The archive can't be written to because of a fault in the program.",
    'No se puede escribir en el archivo por un fallo del programa.',
  ],
  [
    'The archive {1} is damaged. Nothing was changed. "Set this archive aside…" in the window, or gaugemark archive set-aside --archive "{2}", renames it with today\'s date and keeps all of it; the next start begins a fresh one.',
    'El archivo {1} está dañado. No se cambió nada. «Apartar este archivo…» en la ventana, o gaugemark archive set-aside --archive "{2}", le cambia el nombre con la fecha de hoy y lo conserva entero; el próximo arranque empieza uno nuevo.',
  ],
  [
    "The archive's file is no longer at {1}: it was deleted or renamed, or its folder or medium was taken away. Put it back there, or make a backup on another disk now, before Gaugemark is closed; it still holds everything.",
    'El fichero del archivo ya no está en {1}: se borró o se le cambió el nombre, o se quitó su carpeta o su soporte. Devuélvalo a su sitio, o haga ahora una copia de seguridad en otro disco, antes de cerrar Gaugemark; el programa aún lo conserva todo.',
  ],
  [
    "The spool beside the archive can't be written to; recording goes on, but a crash now would lose up to a tenth of a second. Free space on the disk.",
    'No se puede escribir en el búfer de disco junto al archivo; el registro sigue, pero una caída ahora perdería hasta una décima de segundo. Libere espacio en el disco.',
  ],
  [
    'The log beside the archive has {1} MiB, since it could not be taken into the archive. Nothing is lost; close Gaugemark and its recorder between two pulls, and the next start takes it in.',
    'El fichero «-wal» que está junto al archivo tiene {1} MiB, porque no se pudo incorporar al archivo. No se pierde nada; cierre Gaugemark y su registrador entre dos ensayos, y el próximo inicio lo incorpora.',
  ],
  [
    "The archive's disk is slow: what has come is on it later than within a tenth of a second, so a power cut now would cost more than that. Nothing is lost so far; see what else uses this disk, or keep the archive on a faster one.",
    'El disco del archivo es lento: lo recibido llega a él más tarde que en una décima de segundo, así que un corte de corriente ahora costaría más que eso. Hasta ahora no se ha perdido nada; mire qué más usa este disco, o guarde el archivo en uno más rápido.',
  ],
  [
    'The readout sends lines, but marks every load as {1}, so no pull starts by itself and no strength can be found; look at the readout, then at the status words of its profile.',
    'El indicador envía líneas, pero marca cada carga como {1}, así que ningún ensayo empieza solo ni se puede hallar ninguna resistencia; revise el indicador y luego las palabras de estado de su perfil.',
  ],
  [
    'The load has passed the range of the frame {1}, which ends at {2}; see to the frame. Recording goes on, and what is shown beyond the range is covered by no calibration.',
    'La carga ha rebasado el alcance de la máquina {1}, que termina en {2}; atienda a la máquina. El registro sigue, y ninguna calibración cubre lo que se muestra más allá del alcance.',
  ],
  [
    'The load has passed the range of the force channel {1}, which ends at {2}; see to the frame. Recording goes on, and what is shown beyond the range is covered by no calibration.',
    'La carga ha rebasado el alcance del canal de fuerza {1}, que termina en {2}; atienda a la máquina. El registro sigue, y ninguna calibración cubre lo que se muestra más allá del alcance.',
  ],
  [
    'The extension has passed the range of the extensometer {1}, which ends at {2}; see to the frame. Recording goes on, and what is shown beyond the range is covered by no calibration.',
    'La extensión ha rebasado el alcance del extensómetro {1}, que termina en {2}; atienda a la máquina. El registro sigue, y ninguna calibración cubre lo que se muestra más allá del alcance.',
  ],
  ['overload', 'sobrecarga'],
  ['blank', 'en blanco'],
  ['an error', 'error'],
  ['no number', 'ningún número'],
  [
    'The readout on {1} does not answer its request; check the cable and the request in the readout profile.',
    'El indicador de {1} no responde a su petición; revise el cable y la petición del perfil de lectura.',
  ],
  [
    '{1} reported a fault ({2}); check the adapter and its cable.',
    '{1} comunicó un fallo ({2}); revise el adaptador y su cable.',
  ],
  [
    'A reply of {1} came damaged (wrong CRC) and is not used; check cable and line settings.',
    'Una respuesta de {1} llegó dañada (CRC erróneo) y no se usa; revise el cable y los ajustes de línea.',
  ],
  [
    '{1} answered wrongly: its reply is not what was asked for, and is not used; check the unit number, the registers of the profile and the device.',
    '{1} respondió mal: su respuesta no es lo que se pidió y no se usa; revise el número de unidad, los registros del perfil y el aparato.',
  ],
  [
    '{1} does not answer the request for its registers; check the unit number and the cable.',
    '{1} no responde a la petición de sus registros; revise el número de unidad y el cable.',
  ],
  [
    'The connection to {1} is lost; check the device and its cable. What was received is kept.',
    'Se ha perdido la conexión con {1}; revise el dispositivo y su cable. Lo recibido se guarda.',
  ],
  [
    'The connection to {1} is lost; check the device server and the network. What was received is kept.',
    'Se ha perdido la conexión con {1}; revise el servidor de dispositivos y la red. Lo recibido se guarda.',
  ],
  [
    '{1} is being learned from; wait for what comes of it or stop that, then try again.',
    'Se está aprendiendo de {1}; espere el resultado o pare eso, y vuelva a intentarlo.',
  ],
  [
    '{1} is being listened to; wait for what comes of it or stop that, then try again.',
    'Se está escuchando {1}; espere el resultado o pare eso, y vuelva a intentarlo.',
  ],
  [
    '{1} could not be learned from within {2} seconds on this computer; nothing was changed. Record a shorter file (some seconds of lines are enough) and learn from that.',
    'De {1} no se pudo aprender en {2} segundos en este ordenador; no se cambió nada. Grabe un fichero más corto (bastan unos segundos de líneas) y aprenda de él.',
  ],
  [
    'The lines could not be learned because of a fault in the program; nothing was changed.',
    'No se pudieron aprender las líneas por un fallo del programa; no se cambió nada.',
  ],
  [
    'There is no fresh reading to take as zero; see that the readout sends.',
    'No hay ninguna lectura nueva que tomar como cero; vea que el indicador envíe.',
  ],
  [
    'The newest reading is {1} s old, too old to be taken as zero; take the zero within {2} s after the next one.',
    'La última lectura tiene {1} s, demasiado para tomarla como cero; tome el cero dentro de los {2} s siguientes a la próxima.',
  ],
];
