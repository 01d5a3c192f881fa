/** What is told of a file whose readings are to be imported: English forms with their Spanish. */
export const ES_IMPORT_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  [
    'Pull {1} was not imported from a file, so no plan for a file can read it; choose another readout profile for its lines.',
    'El ensayo {1} no se importó de un fichero, así que ningún plan de fichero puede leerlo; elija otro perfil de lectura para sus líneas.',
  ],
  [
    'The imported file is read again by another plan: {1} readings ({2} as imported), {3} rows that did not fit.',
    'El fichero importado se vuelve a leer con otro plan: {1} lecturas ({2} al importarlo), {3} filas que no encajaban.',
  ],
  ['The imported file is read again: {1}.', 'El fichero importado se vuelve a leer: {1}.'],
  ['time {1} (column {2})', 'tiempo {1} (columna {2})'],
  ['force {1} (column {2})', 'fuerza {1} (columna {2})'],
  ['extension {1} (column {2})', 'extensión {1} (columna {2})'],
  ['travel {1} (column {2})', 'recorrido {1} (columna {2})'],
  ['stress {1} (column {2})', 'tensión {1} (columna {2})'],
  ['strain {1} (column {2})', 'deformación {1} (columna {2})'],
  ['true-stress {1} (column {2})', 'tensión verdadera {1} (columna {2})'],
  ['true-strain {1} (column {2})', 'deformación verdadera {1} (columna {2})'],
  ['decimal sign “{1}”', 'signo decimal «{1}»'],
  [
    'No day of the pull was stated, so it is listed under the day of its import; line {1} of the file has a date, which may be it: {2} or {3}. If it is, state it beside the pull.',
    'No se declaró ningún día del ensayo, así que figura en el día de su importación; la línea {1} del fichero tiene una fecha, que puede serlo: {2} o {3}. Si lo es, declárela junto al ensayo.',
  ],
  [
    'No day of the pull was stated, so it is listed under the day of its import; line {1} of the file has a date, which may be it: {2}. If it is, state it beside the pull.',
    'No se declaró ningún día del ensayo, así que figura en el día de su importación; la línea {1} del fichero tiene una fecha, que puede serlo: {2}. Si lo es, declárela junto al ensayo.',
  ],
  ['rows from line {1}', 'filas desde la línea {1}'],
  // The file itself.
  [
    'The file is empty; give a file with a header and readings.',
    'El fichero está vacío; indique uno con encabezado y lecturas.',
  ],
  [
    'The file holds only blank lines; give a file with a header and readings.',
    'El fichero solo contiene líneas en blanco; indique uno con encabezado y lecturas.',
  ],
  ['The file is {1}, whatever its name says; {2}.', 'El fichero es {1}, diga lo que diga su nombre; {2}.'],
  ['a spreadsheet workbook or another zip archive', 'un libro de hoja de cálculo u otro fichero zip'],
  ['a spreadsheet of the older binary kind', 'una hoja de cálculo del tipo binario antiguo'],
  ['gzip-compressed', 'un fichero comprimido con gzip'],
  ['a PDF document', 'un documento PDF'],
  ['an HDF5 file', 'un fichero HDF5'],
  ['a netCDF file', 'un fichero netCDF'],
  ['a database', 'una base de datos'],
  [
    'open it in the spreadsheet program and save the sheet as CSV (UTF-8)',
    'ábralo en el programa de hojas de cálculo y guarde la hoja como CSV (UTF-8)',
  ],
  ['unpack it and give the text file inside', 'descomprímalo e indique el fichero de texto que contiene'],
  ['export the readings as delimited text instead', 'exporte en su lugar las lecturas como texto delimitado'],
  [
    'if it is an archive of this program, merge it instead of importing it',
    'si es un archivo de este programa, incorpórelo en lugar de importarlo',
  ],
  [
    'The file is not text (it holds zero bytes); give delimited text, best in UTF-8.',
    'El fichero no es texto (contiene bytes nulos); indique texto delimitado, mejor en UTF-8.',
  ],
  ['there is no such file; give another one.', 'no existe tal fichero; indique otro.'],
  ['the file can’t be opened; check its permissions.', 'el fichero no se puede abrir; revise sus permisos.'],
  [
    'this is no file but a folder or a device; give the file with the readings.',
    'no es un fichero, sino una carpeta o un dispositivo; indique el fichero con las lecturas.',
  ],
  [
    'the file has {1} MiB, and at most {2} MiB are imported, since its bytes are kept whole; split it or leave columns out.',
    'el fichero tiene {1} MiB y se importan {2} MiB como mucho, porque sus bytes se guardan enteros; divídalo u omita columnas.',
  ],
  [
    'The bytes of {1} are in this archive already, as pull {2}; nothing was imported.',
    'Los bytes de {1} ya están en este archivo, como ensayo {2}; no se importó nada.',
  ],
  [
    '{1} was pulled already: pull {2} counts in the set “{3}”; make that pull void first, with its reason, or keep a specimen of its own for this file.',
    '{1} ya se ensayó: el ensayo {2} cuenta en el conjunto «{3}»; anule primero ese ensayo, con su motivo, o guarde una probeta propia para este fichero.',
  ],

  // The table in it.
  [
    'Line {1} is longer than {2} characters; this is no table of readings, or it has lost its line ends.',
    'La línea {1} tiene más de {2} caracteres; esto no es una tabla de lecturas, o perdió sus fines de línea.',
  ],
  [
    'Line {1} begins with {2}: this is markup or JSON, not delimited text; export the readings as a table (CSV, UTF-8).',
    'La línea {1} empieza con {2}: son marcas de hipertexto o JSON y no texto delimitado; exporte las lecturas como tabla (CSV, UTF-8).',
  ],
  [
    'Line {1} has {2} columns, and at most {3} are read; write the file with the columns of the test only.',
    'La línea {1} tiene {2} columnas y se leen {3} como mucho; escriba el fichero solo con las columnas del ensayo.',
  ],
  [
    'From line {1} on, commas stand between the cells and seem to be the decimal sign as well ({2}); write the file with semicolons or tabs between the cells, or with quotes around the numbers.',
    'Desde la línea {1} hay comas entre las celdas y parecen ser también el signo decimal ({2}); escriba el fichero con punto y coma o tabuladores entre las celdas, o con comillas en torno a los números.',
  ],
  ['the rows have different numbers of cells', 'las filas tienen distinto número de celdas'],
  [
    'Numbers are written both with a decimal point ({1}) and with a decimal comma ({2}); say which one is the decimal sign, or write the file with one.',
    'Hay números con punto decimal ({1}) y con coma decimal ({2}); diga cuál es el signo decimal, o escriba el fichero con uno solo.',
  ],
  [
    'Numbers like "1,234" can be one thousand or one and a bit; say which sign is the decimal sign.',
    'Números como «1,234» pueden ser mil y pico o uno y pico; diga cuál es el signo decimal.',
  ],
  [
    'The table in the file is not beyond doubt: {1} Name each column in order, like "time_s;force_kN;travel_mm;extension_mm", and write "-" for one to leave out; all rows of that shape are then read. Or say in which line the rows begin.',
    'La tabla del fichero deja dudas: {1} Nombre cada columna por orden, como «time_s;force_kN;travel_mm;extension_mm», y escriba «-» por la que haya que omitir; entonces se leen todas las filas de esa forma. O diga en qué línea empiezan las filas.',
  ],
  [
    'The commas stand between cells here; where they are decimal signs too, write the file with semicolons or tabs between the cells: no number shows a decimal point, and no line names the columns.',
    'Aquí las comas separan celdas; si son también signos decimales, escriba el fichero con punto y coma o tabuladores entre las celdas: ningún número muestra punto decimal y ninguna línea nombra las columnas.',
  ],
  ['Column {1} was not named and is left out.', 'La columna {1} no se nombró y se omite.'],
  [
    'Column {1}, {2}, is left out: column {3} is taken for the same quantity.',
    'La columna {1}, {2}, se omite: la columna {3} se toma para la misma magnitud.',
  ],
  [
    '{1} columns are left out, since others are taken for the same quantities; the first is column {2}, {3}.',
    'Se omiten {1} columnas, porque otras se toman para las mismas magnitudes; la primera es la columna {2}, {3}.',
  ],
  [
    'Columns {1} to {2} were not named and are left out.',
    'Las columnas {1} a {2} no se nombraron y se omiten.',
  ],
  [
    'Do the rows begin in line {1} or in line {2}? ({3} of numbers stand above the names in line {4})',
    '¿Empiezan las filas en la línea {1} o en la línea {2}? (Encima de los nombres, en la línea {4}, hay {3} de números)',
  ],
  [
    'No column is known to hold a force or a stress; say what the columns are, like "time_s;force_kN;extension_mm".',
    'De ninguna columna se sabe que contenga una fuerza o una tensión; diga qué son las columnas, como «time_s;force_kN;extension_mm».',
  ],

  // How it is laid out, and what each column is.
  ['UTF-8 by its byte order mark', 'UTF-8 según su marca de orden de bytes'],
  [
    'UTF-16 (little end first) by its byte order mark',
    'UTF-16 (primero el byte menos significativo) según su marca de orden de bytes',
  ],
  [
    'UTF-16 (big end first) by its byte order mark',
    'UTF-16 (primero el byte más significativo) según su marca de orden de bytes',
  ],
  [
    'UTF-16 without a byte order mark, by the zero byte beside each letter',
    'UTF-16 sin marca de orden de bytes, por el byte nulo junto a cada letra',
  ],
  ['valid UTF-8', 'UTF-8 válido'],
  [
    'not valid UTF-8, so read as Latin-1 (Windows-1252); check the letters beyond A to Z',
    'no es UTF-8 válido, así que se lee como Latin-1 (Windows-1252); revise las letras que no sean de la A a la Z',
  ],
  ['commas', 'comas'],
  ['semicolons', 'punto y coma'],
  ['tabs', 'tabuladores'],
  ['vertical bars', 'barras verticales'],
  ['blanks', 'espacios'],
  ['no line of names above the rows', 'ninguna línea de nombres encima de las filas'],
  ['names of the columns in line {1}', 'nombres de las columnas en la línea {1}'],
  ['units in line {1}', 'unidades en la línea {1}'],
  ['decimal point, beyond doubt in {1} numbers', 'punto decimal, sin duda en {1} números'],
  ['decimal comma, beyond doubt in {1} numbers', 'coma decimal, sin duda en {1} números'],
  ['commas between thousands, so a decimal point', 'comas entre los millares, luego punto decimal'],
  ['points between thousands, so a decimal comma', 'puntos entre los millares, luego coma decimal'],
  ['decimal point (three digits behind it throughout)', 'punto decimal (siempre con tres cifras detrás)'],
  ['whole numbers only', 'solo números enteros'],
  ['no known quantity', 'magnitud desconocida'],
  ['the name says {1} and the line of units {2}', 'el nombre dice {1} y la línea de unidades {2}'],
  ['"{1}" is no quantity of the curve', '«{1}» no es una magnitud de la curva'],
  ['named with its unit', 'nombrada con su unidad'],
  [
    "{1} alone doesn't tell extension from travel, or what is measured",
    '{1} por sí sola no distingue la extensión del recorrido, ni dice qué se mide',
  ],
  ['by its unit {1} only', 'solo por su unidad {1}'],
  ['name and unit', 'nombre y unidad'],
  ['no unit is given', 'no se indica unidad'],
  ['the unit {1} is not known', 'la unidad {1} no se conoce'],
  ['seconds are usual', 'lo habitual son segundos'],
  ['values up to {1} look like a plain ratio', 'valores de hasta {1} parecen una razón sin unidad'],
  ['values up to {1} look like percent', 'valores de hasta {1} parecen un porcentaje'],
  ['a single letter', 'una sola letra'],
  ['a symbol only', 'solo un símbolo'],
  ['"esfuerzo" can mean a force as well', '«esfuerzo» también puede ser una fuerza'],
  ['"tension" can mean a voltage or a force as well', '«tension» también puede ser un voltaje o una fuerza'],
  [
    'taken as measured over the gauge length; if it is the travel of the crosshead, say “crosshead travel” for it (travel_mm where columns are written in words)',
    'se toma como medida sobre la longitud entre marcas; si es el recorrido del travesaño, elija para ella «recorrido del travesaño» (travel_mm donde las columnas se escriben con palabras)',
  ],
  [
    'a displacement is taken as crosshead travel unless the file says that it comes from an extensometer',
    'un desplazamiento se toma como recorrido del travesaño, salvo que el fichero diga que procede de un extensómetro',
  ],
  ['{1} as chosen', '{1}, como se eligió'],

  // Names of columns.
  [
    'Line {1} names {2} columns; at most {3} are read; leave the columns that are needed.',
    'La línea {1} nombra {2} columnas y se leen {3} como mucho; deje las columnas que hacen falta.',
  ],
  [
    'Line {1} holds numbers where the names of the columns belong; put a header like {2} above them.',
    'La línea {1} contiene números donde van los nombres de las columnas; ponga encima un encabezado como {2}.',
  ],
  [
    'Line {1}: the column {2} has no unit; name it like {3}.',
    'Línea {1}: la columna {2} no tiene unidad; nómbrela como {3}.',
  ],
  [
    'Line {1}: the unit "{2}" of the column {3} is not known; name it like {4}.',
    'Línea {1}: no se conoce la unidad «{2}» de la columna {3}; nómbrela como {4}.',
  ],
  [
    'Line {1}: the column {2} has a unit of {3}, but {4} is needed in a unit of {5}; name it like {6}.',
    'Línea {1}: la unidad de la columna {2} es de {3}, pero {4} necesita una unidad de {5}; nómbrela como {6}.',
  ],
  ['stress', 'tensión'],
  ['strain', 'deformación'],
  [
    'Line {1} names {2} twice, as "{3}" and as {4}; leave one of them.',
    'La línea {1} nombra {2} dos veces, como «{3}» y como {4}; deje una de las dos.',
  ],
  [
    'Line {1} is no header of a curve: none of its columns ({2}) is named like {3}; name them so.',
    'La línea {1} no es el encabezado de una curva: ninguna de sus columnas ({2}) se llama como {3}; nómbrelas así.',
  ],
  [
    'time_s, force_N, extension_mm (or stress_MPa, strain_percent, travel_mm)',
    'time_s, force_N, extension_mm (o stress_MPa, strain_percent, travel_mm)',
  ],
  [
    'The columns are longer than {1} characters; name them like "time_s;force_kN;extension_mm".',
    'Las columnas tienen más de {1} caracteres; nómbrelas como «time_s;force_kN;extension_mm».',
  ],
  ['"{1}" (name it {2})', '«{1}» (nómbrela {2})'],
  ['{1} is no quantity with its unit', '{1} no es una magnitud con su unidad'],
  [
    'The columns given leave all of them out; name at least one like "force_kN".',
    'Las columnas indicadas las omiten todas; nombre al menos una como «force_kN».',
  ],
  // Without their line, where columns are named by hand.
  ['the unit "{1}" of the column {2} is not known', 'no se conoce la unidad «{1}» de la columna {2}'],
  [
    '{1} has a unit of {2}, but {3} is needed in a unit of {4}',
    'la unidad de {1} es de {2}, pero {3} necesita una unidad de {4}',
  ],
  ['{1} has no unit', '{1} no tiene unidad'],

  // A blank run, and a table of a calibration.
  [
    'A blank run needs columns of force and of crosshead travel; name them like "force_N,travel_mm".',
    'Un ensayo en vacío necesita columnas de fuerza y de recorrido del travesaño; nómbrelas como «force_N,travel_mm».',
  ],
  [
    'The force of this blank run does not rise above zero; record the loading with a stiff bar in the grips.',
    'La fuerza de este ensayo en vacío no sube de cero; registre la carga con una barra rígida en las mordazas.',
  ],
  [
    'This blank run has readings at fewer than two levels of force while it rises; record it slower, or with more readings a second.',
    'Este ensayo en vacío tiene lecturas en menos de dos niveles de fuerza mientras sube; regístrelo más despacio o con más lecturas por segundo.',
  ],
  [
    'The travel of this blank run does not grow with the force; check the sign of the travel, and that it is the travel of the crosshead.',
    'En este ensayo en vacío el travesaño no avanza con la fuerza; revise el signo de esa columna y que sea la del travesaño.',
  ],
  [
    'This file has {1} lines; a calibration table has some ten.',
    'Este fichero tiene {1} líneas; una tabla de calibración tiene unas diez.',
  ],
  [
    'Line {1}: "{2}" does not hold two numbers; correct it or remove the line.',
    'Línea {1}: «{2}» no contiene dos números; corríjala o quite la línea.',
  ],
  [
    'The file holds no table; begin it with a header like "{1}", then a line for each point.',
    'El fichero no contiene ninguna tabla; empiécelo con un encabezado como «{1}» y luego una línea por punto.',
  ],
  [
    'the header must name two columns with their units, what the readout showed and what was actual, like "{1}" or "shown_mm,actual_mm".',
    'el encabezado ha de nombrar dos columnas con sus unidades, lo que mostró el indicador y lo real, como «{1}» o «shown_mm,actual_mm».',
  ],
  [
    'one column is a force and the other a length; a table corrects one of them.',
    'una columna es una fuerza y la otra una longitud; una tabla corrige una de las dos.',
  ],
  [
    'Pull {1} was imported from no file, so there is none to write; its raw bytes stand in the export as JSON.',
    'El ensayo {1} no se importó de ningún fichero, así que no hay ninguno que escribir; sus bytes están en la exportación como JSON.',
  ],
  [
    'The bytes of the file of pull {1} are no longer those that were imported, so none was written; let the archive be checked.',
    'Los bytes del fichero del ensayo {1} ya no son los que se importaron, así que no se escribió ninguno; haga comprobar el archivo.',
  ],
];
