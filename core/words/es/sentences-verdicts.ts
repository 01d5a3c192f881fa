/** Verdicts and their reasons, rule packs, sets, marks of a record, scenarios of the simulated frame: English forms with their Spanish. */
export const ES_VERDICT_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  // The sentence of a verdict.
  [
    '{1}: the test is questionable, because {2}. Test a replacement, or have a responsible person decide with a reason.',
    '{1}: el ensayo es dudoso, porque {2}. Ensaye una probeta de reemplazo o que una persona responsable decida con un motivo.',
  ],
  ['{1}: {2}, and no rule of the pack accepts that.', '{1}: {2}, y ninguna regla del paquete lo acepta.'],
  ['accept', 'aceptar'],
  ['reject', 'rechazar'],
  ['undecided', 'sin decidir'],
  ['{1}, {2} needed ({3}), margin {4}', '{1}, hace falta {2} ({3}), margen {4}'],
  ['{1}, {2} needed ({3}), {4} below', '{1}, hace falta {2} ({3}), {4} por debajo'],
  ['{1}, {2} needed ({3}), {4} above', '{1}, hace falta {2} ({3}), {4} por encima'],
  ['tensile strength {1} ({2} rounded to {3})', 'resistencia a la tracción {1} ({2} redondeado a {3})'],
  ['{1} (measured {2})', '{1} (medición: {2})'],
  ['tensile strength {1}', 'resistencia a la tracción {1}'],
  ['yield strength {1} ({2} rounded to {3})', 'límite elástico {1} ({2} redondeado a {3})'],
  ['yield strength {1}', 'límite elástico {1}'],
  ['elongation {1} ({2} rounded to {3})', 'alargamiento {1} ({2} redondeado a {3})'],
  ['elongation {1} %', 'alargamiento {1} %'],
  ['{1} on average', '{1} de media'],
  ['at least {1}', 'al menos {1}'],
  ['more than {1}', 'más de {1}'],
  ['at most {1}', 'como mucho {1}'],
  ['less than {1}', 'menos de {1}'],
  ['the specified minimum of the base metal', 'el mínimo especificado del metal base'],
  // Clauses of our own packs; those of a code are quoted.
  ['base metal minimum', 'mínimo del metal base'],
  ['break in the weld', 'rotura en la soldadura'],
  ['break in the plate', 'rotura en la chapa'],
  ['the specified minimum of {1}', 'el mínimo especificado de {1}'],
  ['the stated minimum of the weld metal', 'el mínimo indicado del metal de soldadura'],
  ['the base metal', 'el metal base'],
  ['base metal {1}', 'metal base {1}'],
  ['the filler metal', 'el metal de aporte'],
  ['the minimum stated for {1}', 'el mínimo indicado para {1}'],
  [
    'the gauge length of an all-weld-metal specimen is weld metal only, so it can’t have broken there; correct where it broke, or choose a pack for transverse specimens',
    'la longitud entre marcas de una probeta de solo metal de soldadura es toda ella metal de soldadura, así que no pudo romper ahí; corrija dónde rompió o elija un paquete para probetas transversales',
  ],
  ['set by the pack', 'puesto por el paquete'],
  ['stated for this case', 'indicado para este caso'],
  ['it broke {1}', 'rompió {1}'],
  ['where it broke is not noted', 'no consta dónde rompió'],
  ['in the weld metal', 'en el metal de soldadura'],
  ['at the fusion line (weld interface)', 'en la línea de fusión (intercara de la soldadura)'],
  ['in the heat-affected zone', 'en la zona afectada térmicamente'],
  ['in the base metal', 'en el metal base'],
  ['outside the gauge length', 'fuera de la longitud entre marcas'],
  ['in the grips', 'en las mordazas'],
  [
    'where it broke is not noted; look at the specimen and note it',
    'no consta dónde rompió; mire la probeta y anótelo',
  ],
  [
    'where it broke is not noted; look at the specimen and note it before a verdict is asked for',
    'no consta dónde rompió; mire la probeta y anótelo antes de pedir un veredicto',
  ],
  [
    'whether the fracture is sound is not noted; look at both faces and note it',
    'no consta si la rotura está sana; mire ambas caras y anótelo',
  ],
  ['the fracture is not sound', 'la rotura no está sana'],
  [
    'whether the break lies in base metal outside the weld is not noted, and the answer depends on it; note it as base metal where it does',
    'no consta si la rotura está en metal base fuera de la soldadura, y de ello depende la respuesta; anótela como metal base si es así',
  ],
  [
    'the value lies within the guard band around the limit, where the ordered decision rule neither accepts nor rejects',
    'el valor está en la banda de guarda en torno al límite, donde la regla de decisión pedida ni acepta ni rechaza',
  ],
  [
    'the elongation falls short, but {1}, so it is not representative (ASTM E8, ASTM B557 7.8); discard it and test a replacement',
    'el alargamiento se queda corto, pero {1}, así que no es representativo (ASTM E8, ASTM B557 7.8); deséchelo y ensaye un reemplazo',
  ],
  ['it broke outside the gauge length', 'rompió fuera de la longitud entre marcas'],
  ['it broke at a gauge mark', 'rompió en una marca'],
  [
    'the minimum of the weld metal is not stated; enter it',
    'no consta el mínimo del metal de soldadura; anótelo',
  ],
  [
    'the base metal is not named; name it, or enter its specified minimum',
    'no consta el metal base; nómbrelo o anote su mínimo especificado',
  ],
  [
    'the specified minimum {1} of {2} is not in the tables of this pack; enter it as its specification prints it',
    'el mínimo especificado {1} de {2} no está en las tablas de este paquete; anótelo como lo imprime su especificación',
  ],
  [
    'the filler class is not named; name it, or enter its specified minima',
    'no consta la clase del aporte; nómbrela o anote sus mínimos especificados',
  ],
  [
    'Judged by the stated minima only; no class of the tables was named.',
    'Juzgado solo por los mínimos indicados; no se nombró ninguna clase de las tablas.',
  ],
  ['Shop practice', 'Práctica de taller'],
  ['shop practice', 'práctica de taller'],
  [
    'A break in the weld is a failure whatever the strength',
    'Una rotura en la soldadura es un fallo sea cual sea la resistencia',
  ],
  ['Broke in the plate', 'Rompió en la chapa'],

  [
    'The strength was given in {1} and converted exactly to {2}; printed figures of the two unit systems are not equivalent.',
    'La resistencia se dio en {1} y se convirtió exactamente a {2}; las cifras impresas de los dos sistemas de unidades no son equivalentes.',
  ],

  // Doubts.
  [
    'it broke in the grips, so the strength of the weld was not reached and is only known to be at least the value measured',
    'rompió en las mordazas, así que no se alcanzó la resistencia de la soldadura y solo se sabe que es al menos el valor medido',
  ],
  [
    'it broke at a machining mark, which may have started the fracture',
    'rompió en una marca de mecanizado, que pudo iniciar la rotura',
  ],
  [
    'it broke at a stamp mark, which may have started the fracture',
    'rompió en una marca estampada, que pudo iniciar la rotura',
  ],
  [
    'the calibration of an instrument was overdue on the day of the pull',
    'la calibración de un instrumento estaba vencida el día del ensayo',
  ],
  [
    'the calibration of an instrument is not on record for the day of the pull',
    'no consta la calibración de un instrumento para el día del ensayo',
  ],
  [
    'the maximum force lies outside the verified range of the force measurement',
    'la fuerza máxima queda fuera del intervalo verificado de la medida de fuerza',
  ],
  [
    'the testing speed was outside the range that the test method allows',
    'la velocidad de ensayo estuvo fuera de lo que permite el método de ensayo',
  ],
  [
    'the specimen does not have the proportions that the test method asks for',
    'la probeta no tiene las proporciones que pide el método de ensayo',
  ],
  [
    'readings were lost during the pull, so the maximum may have been missed',
    'se perdieron lecturas durante el ensayo, así que pudo escaparse el máximo',
  ],
  ['the pull was marked as doubtful', 'el ensayo se marcó como dudoso'],
  ['the width is {1}, {2} is asked for', 'el ancho es {1}, se pide {2}'],
  [
    'the outside diameter is {1}, at most {2} is asked for',
    'el diámetro exterior es {1}, se pide como mucho {2}',
  ],
  ['the diameter is {1}; {2} is asked for', 'el diámetro es {1}; se pide {2}'],

  // Remarks and where figures come from.
  [
    'A break in the weld passes here because the strength is reached; it still shows a weld that is weaker than the plate or flawed, so look at the fracture.',
    'Una rotura en la soldadura pasa aquí porque se alcanza la resistencia; aun así muestra una soldadura más débil que la chapa o con defectos: mire la rotura.',
  ],
  [
    'The fracture is noted as unsound; this pack does not ask for soundness, other tests of the code may.',
    'La rotura consta como no sana; este paquete no pide que lo esté, otros ensayos del código quizá sí.',
  ],
  [
    'The limit ({1}) is from memory: check it before relying on the verdict.',
    'El límite ({1}) es de memoria: compruébelo antes de fiarse del veredicto.',
  ],
  [
    'Check the rule and its figures against your own copy of the code; the code, the responsible inspector or engineer and the local authority govern.',
    'Compruebe la regla y sus cifras con su propio ejemplar del código; mandan el código, el inspector o ingeniero responsable y la autoridad local.',
  ],
  ['guarded acceptance', 'aceptación con banda de guarda'],
  ['guarded acceptance in three zones', 'aceptación con banda de guarda en tres zonas'],
  ['seen in a published page', 'visto en una página publicada'],
  [
    'seen in a published study guide, data book or maker’s page, not in the standard',
    'visto en una guía, un libro de datos o la página de un fabricante, no en la norma',
  ],
  ['from memory, not checked against the standard', 'de memoria, sin comprobar con la norma'],
  ['common practice, no source', 'práctica común, sin fuente'],
  ['the laboratory’s own statement', 'declaración del propio laboratorio'],

  // The set.
  ['The set is accepted by {1}: {2} passed.', 'El conjunto se acepta según {1}: {2}, conforme.'],
  ['The set is rejected by {1}: {2} failed.', 'El conjunto se rechaza según {1}: no pasó {2}.'],
  ['The set is undecided by {1}: {2}.', 'El conjunto queda sin decidir según {1}: {2}.'],
  ['its one test', 'su único ensayo'],
  ['both tests', 'ambos ensayos'],
  ['all {1} tests', 'los {1} ensayos'],
  ['{1} has no accepted or rejected verdict yet', '{1} aún no tiene veredicto de aceptada o rechazada'],
  [
    'the number of specimens is not known; enter it from your copy of the code',
    'no se conoce el número de probetas; anótelo de su ejemplar del código',
  ],
  ['no specimen is there', 'no hay ninguna probeta'],
  ['Retest rule: {1}', 'Regla de repetición: {1}'],
  [
    '{1} failed and needs {2} accepted further {3} ({4}), {5} so far',
    '{1} no pasó y necesita {2} probetas más aceptadas ({4}), {5} hasta ahora',
  ],
  ['The number that was entered for the set.', 'El número que se anotó para el conjunto.'],

  // What a set's form is told.
  [
    '{1} is for {2} specimens, not for "{3}"; choose the other pack or the other type',
    '{1} es para probetas {2}, no para «{3}»; elija el otro paquete o el otro tipo',
  ],
  ['{1} is in the set already', '{1} ya está en el conjunto'],
  ["{1} can't be a retest of itself", '{1} no puede repetirse a sí misma'],
  ['say why', 'diga por qué'],
  ['say who decides', 'diga quién decide'],
  ['"{1}" could be {2}; name one of them', '«{1}» puede ser {2}; nombre uno de ellos'],

  // Names of packs, where they are words and not the name of a standard.
  [
    'Shop practice: not in the weld, and at least the base metal’s minimum',
    'Práctica de taller: no en la soldadura, y al menos el mínimo del metal base',
  ],
  [
    'Shop practice: it must break in the plate (location only)',
    'Práctica de taller: debe romper en la chapa (solo el lugar)',
  ],
  ['house rule, no edition', 'regla de la casa, sin edición'],
  [
    '2021 (QW-153.1 with item (e)); earlier editions read the same in (a) to (d)',
    '2021 (QW-153.1 con el punto (e)); las ediciones anteriores dicen lo mismo en (a) a (d)',
  ],
  [
    '2020 (clause 6.10.3.5); 2010 and 2015 (clause 4.9.3.5)',
    '2020 (apartado 6.10.3.5); 2010 y 2015 (apartado 4.9.3.5)',
  ],
  ['edition not established; figures as noted', 'edición sin establecer; cifras según se anota'],
  ['21st edition (2013) and later', '21.ª edición (2013) y posteriores'],
  ['20th edition (2005, reaffirmed 2010)', '20.ª edición (2005, reafirmada en 2010)'],
  ['6.3.4 as published on line', '6.3.4 como está publicado en línea'],
  [
    '2012 rounding clause; figures of 1991 and later',
    'regla de redondeo de 2012; cifras de 1991 y posteriores',
  ],
  ['1993 and later figures', 'cifras de 1993 y posteriores'],
  ['2005 figures', 'cifras de 2005'],
  ['from memory unless noted', 'de memoria salvo indicación'],
  [
    '2014 retest clause; figures from memory unless noted',
    'regla de repetición de 2014; cifras de memoria salvo indicación',
  ],

  // What the packs ask for.
  [
    'At least the specified minimum of the base metal (the lower one of two); a break in base metal outside the weld and the weld interface may be up to 5 % below it.',
    'Al menos el mínimo especificado del metal base (el menor de dos); una rotura en metal base fuera de la soldadura y su intercara puede quedar hasta un 5 % por debajo.',
  ],
  [
    'At least the minimum of the specified tensile range of the base metal, wherever it breaks; no allowance.',
    'Al menos el mínimo del intervalo de resistencia especificado del metal base, rompa donde rompa; sin margen.',
  ],
  [
    'At least the minimum tensile strength of the welded joint that the table states for the alloy.',
    'Al menos la resistencia mínima de la unión soldada que la tabla indica para la aleación.',
  ],
  [
    'A break in the parent pipe is accepted from 95 % of the specified minimum tensile strength on; a break in the weld or fusion zone needs the whole minimum and a sound fracture.',
    'Una rotura en el tubo se acepta desde el 95 % de la resistencia mínima especificada; una en la soldadura o la zona de fusión necesita el mínimo entero y una rotura sana.',
  ],
  [
    'At least the specified minimum tensile strength of the pipe; a break in the weld or fusion zone must also be sound. No 95 % rule in this edition.',
    'Al menos la resistencia mínima especificada del tubo; una rotura en la soldadura o la zona de fusión además debe estar sana. Sin regla del 95 % en esta edición.',
  ],
  [
    'At least the specified minimum of the parent metal (the lower one of two) unless something else was specified before testing; where it breaks is only reported.',
    'Al menos el mínimo especificado del metal base (el menor de dos), salvo que se especificara otra cosa antes del ensayo; dónde rompe solo se anota.',
  ],
  [
    'At least the specified minimum of the parent material; the administration may set a minimum for a weaker weld metal; where it broke is reported for information.',
    'Al menos el mínimo especificado del material base; la administración puede fijar un mínimo para un metal de soldadura más débil; dónde rompió se anota como información.',
  ],
  [
    'Only where it broke counts: in the weld metal or along the fusion line is a failure whatever the strength, elsewhere is a pass.',
    'Solo cuenta dónde rompió: en el metal de soldadura o en la línea de fusión es un fallo sea cual sea la resistencia; en otro sitio pasa.',
  ],
  [
    'A break in the weld metal or along the fusion line is a failure whatever the strength; anywhere else the specified minimum of the base metal must be reached.',
    'Una rotura en el metal de soldadura o en la línea de fusión es un fallo sea cual sea la resistencia; en otro sitio hay que alcanzar el mínimo especificado del metal base.',
  ],
  [
    'Carbon-steel bare and metal-cored electrodes: what the class specifies, rounded before judging.',
    'Alambres macizos y con núcleo metálico de acero al carbono: lo que especifica la clase, redondeado antes de juzgar.',
  ],
  [
    'Carbon-steel covered electrodes: what the class specifies, rounded before judging.',
    'Electrodos revestidos de acero al carbono: lo que especifica la clase, redondeado antes de juzgar.',
  ],
  [
    'Carbon-steel flux-cored electrodes: tensile range, yield strength and elongation of the class, rounded before judging.',
    'Alambres tubulares de acero al carbono: intervalo de resistencia, límite elástico y alargamiento de la clase, redondeados antes de juzgar.',
  ],
  [
    'Low-alloy bare and metal-cored electrodes: what the class specifies, rounded before judging.',
    'Alambres macizos y con núcleo metálico de baja aleación: lo que especifica la clase, redondeado antes de juzgar.',
  ],
  [
    'Low-alloy covered electrodes: what the class specifies, rounded before judging.',
    'Electrodos revestidos de baja aleación: lo que especifica la clase, redondeado antes de juzgar.',
  ],
  [
    'Stainless covered electrodes: tensile strength and elongation of the class; no yield is specified for austenitic classes.',
    'Electrodos revestidos inoxidables: resistencia y alargamiento de la clase; no se especifica límite elástico para las clases austeníticas.',
  ],

  // The record's marks.
  ['force at or above {1} for {2} readings', 'fuerza igual o mayor que {1} durante {2} lecturas'],
  [
    'force at or below {1} % of the peak of {2} for {3} readings',
    'fuerza igual o menor que el {1} % del máximo de {2} durante {3} lecturas',
  ],
  ['record closed by hand', 'registro cerrado a mano'],
  ['recording begins', 'empieza el registro'],
  ['started by hand', 'comenzado a mano'],
  ['break marked by hand', 'rotura marcada a mano'],
  ['break taken back by hand', 'rotura deshecha a mano'],
  ['end taken back by hand', 'fin deshecho a mano'],
  ['record put away by hand', 'registro dado por terminado a mano'],
  ['zero taken of {1}', 'cero tomado de {1}'],
  [
    'the computer slept for {1} s; nothing could be received',
    'el equipo estuvo en suspensión {1} s; no se pudo recibir nada',
  ],
  ['the readout changed its units: {1}', 'el indicador cambió de unidades: {1}'],

  // The simulated frame and the profiles that come along.
  ['simulated frame: {1}', 'máquina simulada: {1}'],
  [
    'Flat specimen of mild steel plate, yields with a plateau',
    'Plana de acero dulce, con meseta de fluencia',
  ],
  [
    'Reduced section across a butt weld, US customary readout',
    'Soldadura a tope, sección reducida, indicador en unidades de EE. UU.',
  ],
  [
    'Round specimen of quenched and tempered steel, yields continuously',
    'Probeta redonda de acero templado y revenido, fluencia continua',
  ],
  [
    'Butt weld in heat-treated aluminium, breaks in the heat-affected zone',
    'Soldadura a tope en aluminio tratado, rompe en la zona afectada térmicamente',
  ],
  [
    'Weld with lack of fusion, breaks before it necks',
    'Soldadura con falta de fusión, rompe antes de estrecharse',
  ],
  [
    'Invented values in the range of structural steel. Breaks inside the gauge length; the extensometer stays on.',
    'Valores inventados, propios del acero estructural. Rompe dentro de las marcas; el extensómetro sigue puesto.',
  ],
  [
    'Invented values. High strength, little uniform elongation, breaks inside the gauge length.',
    'Valores inventados. Resistencia alta, poco alargamiento uniforme, rompe dentro de las marcas.',
  ],
  [
    'Invented values. The softened zone beside the weld governs: it strains, necks and breaks while the plate stays nearly elastic.',
    'Valores inventados. Manda la zona ablandada junto a la soldadura: se deforma, se estrecha y rompe mientras la chapa sigue casi elástica.',
  ],
  [
    'Invented values. Yields with a short plateau and breaks in the plate, outside the 2 in gauge length; the extensometer is taken off after yield.',
    'Valores inventados. Fluye con una meseta corta y rompe en la chapa, fuera de la longitud de 2 in; el extensómetro se quita tras la fluencia.',
  ],
  [
    'Invented values. The load falls to nothing from one reading to the next, at little elongation.',
    'Valores inventados. La carga cae a nada de una lectura a la siguiente, con poco alargamiento.',
  ],
  ['Simulated frame (SI)', 'Máquina simulada (SI)'],
  ['Simulated frame (US customary)', 'Máquina simulada (unidades de EE. UU.)'],
  ['Example: indicator with status letters (kN)', 'Ejemplo: indicador con letras de estado (kN)'],
  ['Example: indicator with a print key (lbf)', 'Ejemplo: indicador con tecla de impresión (lbf)'],
  ['Example: converter box with fixed columns', 'Ejemplo: convertidor con columnas fijas'],
  ['Example: controller with labels', 'Ejemplo: controlador con rótulos'],
  ['Example: semicolons and decimal comma', 'Ejemplo: punto y coma y coma decimal'],
  ['Example: STX and ETX around the line', 'Ejemplo: STX y ETX en torno a la línea'],
  ['Example: sentence with sequence number and check', 'Ejemplo: frase con número de orden y comprobación'],
  ['Example: controller that answers when asked', 'Ejemplo: controlador que responde cuando se le pregunta'],
  ['Example: amplifier with Modbus registers', 'Ejemplo: amplificador con registros Modbus'],
  ['time', 'tiempo'],
  ['load', 'carga'],
  ['extension', 'extensión'],
  ['travel', 'recorrido'],
  ['force', 'fuerza'],

  // Of the window's own process and the recorder.
  [
    'The recorder is being started; what is recorded is safe. Try again in a moment.',
    'El registrador está arrancando; lo registrado está a salvo. Inténtelo de nuevo en un momento.',
  ],
  [
    'A pull is being recorded into this archive. Nothing was changed; end the record first.',
    'Se está registrando un ensayo en este archivo. No se ha cambiado nada; termine antes el registro.',
  ],
  [
    'This is the tour: only the simulated frame is pulled here, and nothing of it is kept. Leave the tour first.',
    'Esto es la visita guiada: aquí solo se ensaya con la máquina simulada y nada se guarda. Deje antes la visita.',
  ],
  [
    'The recorder ended and is being started again. What it had saved is safe; an open pull goes on in the same record, with the gap named.',
    'El registrador terminó y se está arrancando de nuevo. Lo que había guardado está a salvo; un ensayo abierto sigue en el mismo registro, con el hueco señalado.',
  ],
  [
    'The program reads and writes only files that were chosen in its own dialog. Nothing was done; choose the file again.',
    'El programa solo lee y escribe ficheros elegidos en su propio diálogo. No se ha hecho nada; elija otra vez el fichero.',
  ],
  [
    'The certificate {1} is issued and kept in the archive, but "{2}" could not be written ({3}). Choose another place and write it again; it keeps its number.',
    'El certificado {1} está emitido y guardado en el archivo, pero «{2}» no se pudo escribir ({3}). Elija otro lugar y escríbalo de nuevo; conserva su número.',
  ],
  [
    'Writing was stopped and no file was made. The certificate {1} is issued and kept; write it again when you like, it keeps its number.',
    'Se detuvo la escritura y no se hizo ningún fichero. El certificado {1} está emitido y guardado; escríbalo de nuevo cuando quiera, conserva su número.',
  ],
  [
    '"{1}" could not be written ({2}). What was there before is unharmed; choose another place and save it again.',
    '«{1}» no se pudo escribir ({2}). Lo que había antes sigue intacto; elija otro lugar y guárdelo de nuevo.',
  ],
  [
    '"{1}" could not be written ({2}). The calibration is kept; choose another place and write it again.',
    '«{1}» no se pudo escribir ({2}). La calibración está guardada; elija otro lugar y escríbalo de nuevo.',
  ],
  [
    '"{1}" could not be read ({2}). Nothing was changed.',
    '«{1}» no se pudo leer ({2}). No se ha cambiado nada.',
  ],
  ['"{1}" is not an ordinary file; choose another one.', '«{1}» no es un fichero corriente; elija otro.'],
  [
    '"{1}" has {2} bytes; such a file has at most {3}. Choose another one.',
    '«{1}» tiene {2} bytes; un fichero así tiene {3} como mucho. Elija otro.',
  ],
  // How many specimens a pack asks for.
  ['Two tension tests for each coupon.', 'Dos ensayos de tracción por cada cupón.'],
  ['Two reduced-section tension specimens.', 'Dos probetas de tracción de sección reducida.'],
  ['Two transverse tensile specimens.', 'Dos probetas transversales de tracción.'],
  [
    'None up to 4.500 in outside diameter (at least one where the specified yield is above X42).',
    'Ninguna hasta 4.500 in de diámetro exterior (al menos una donde el límite elástico especificado supera el de X42).',
  ],
  [
    'Two over 4.500 in to 12.750 in outside diameter.',
    'Dos de más de 4.500 in hasta 12.750 in de diámetro exterior.',
  ],
  ['Four over 12.750 in outside diameter.', 'Cuatro de más de 12.750 in de diámetro exterior.'],
  // A reason with its detail behind it.
  ['{1} ({2})', '{1} ({2})'],
];
