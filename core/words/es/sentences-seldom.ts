/**
 * What is said seldom: of strange files, readouts and sheets, of rules that have changed, of an index that is being made.
 * English forms with their Spanish, as in `sentences.ts`.
 */
export const ES_SELDOM_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  // A file of readings.
  [
    '{1} is missing in {2}; those readings are kept without it.',
    '{1} falta en {2}; esas lecturas se guardan sin ello.',
  ],
  ['1 row', '1 fila'],
  ['{1} rows', '{1} filas'],
  ['{1} cells where the table has {2}', '{1} celdas donde la tabla tiene {2}'],
  ['1 cell where the table has {1}', '1 celda donde la tabla tiene {1}'],
  [
    'a decimal comma needs semicolons between the cells',
    'una coma decimal necesita punto y coma entre las celdas',
  ],
  [
    'Time runs backwards once, first at reading {1}; the order of the file is kept.',
    'El tiempo retrocede una vez, en la lectura {1}; se conserva el orden del fichero.',
  ],
  [
    'Time runs backwards {1} times, first at reading {2}; the order of the file is kept.',
    'El tiempo retrocede {1} veces, la primera en la lectura {2}; se conserva el orden del fichero.',
  ],
  ['Column {1}, {2}, is read as {3} in {4} ({5}).', 'La columna {1}, {2}, se lee como {3} en {4} ({5}).'],
  ["The columns don't go together: {1}.", 'Las columnas no casan: {1}.'],
  ['{1} is no unit of {2}', '{1} no es una unidad de {2}'],
  ['a row has {1} cells only', 'una fila solo tiene {1} celdas'],
  ['{1} is given twice', '{1} está dos veces'],
  [
    'true stress needs a strain beside it to become engineering stress',
    'la tensión verdadera necesita una deformación al lado para pasar a nominal',
  ],
  [
    'give the true value or the engineering value, not both',
    'indique el valor verdadero o el nominal, no ambos',
  ],
  [
    'the decimal sign and the sign between thousands must differ',
    'el signo decimal y el de los millares han de ser distintos',
  ],
  [
    'The file is larger than {1} GiB; split it, or write it with fewer columns.',
    'El fichero pasa de {1} GiB; divídalo, o escríbalo con menos columnas.',
  ],
  [
    'Line {1} is beyond the {2} readings that one curve may have; split the file there.',
    'La línea {1} pasa de las {2} lecturas que puede tener una curva; divida ahí el fichero.',
  ],
  [
    'There are no rows from line {1} on; check at which line the rows begin.',
    'No hay filas desde la línea {1}; mire en qué línea empiezan.',
  ],
  [
    'None of the {1} from line {2} on fits: line {3} has {4}; check delimiter, decimal sign, columns and units.',
    'Ninguna ({1}) encaja desde la línea {2}: la línea {3} tiene {4}; revise separador, signo decimal, columnas y unidades.',
  ],
  [
    "{1} rows don't fit and only {2} do; line {3} has {4}; check delimiter, decimal sign and columns.",
    '{1} filas no encajan y solo {2} sí; la línea {3} tiene {4}; revise separador, signo decimal y columnas.',
  ],
  [
    'True stress and strain were converted to engineering values; that holds up to the maximum force, not in the neck.',
    'La tensión y la deformación verdaderas se convirtieron a nominales; eso vale hasta la fuerza máxima, no en la estricción.',
  ],
  [
    'Some letters are not valid in {1} and were replaced; numbers are not touched by that.',
    'Algunas letras no valen en {1} y se reemplazaron; a los números no les afecta.',
  ],
  [
    '1 row did not fit and is not part of the curve; the first, line {1}, has {2}.',
    '1 fila no encajó y no es parte de la curva; está en la línea {1} y tiene {2}.',
  ],
  [
    '{1} rows did not fit and are not part of the curve; the first, line {2}, has {3}.',
    '{1} filas no encajaron y no son parte de la curva; la primera, en la línea {2}, tiene {3}.',
  ],
  [
    'Line {1} holds words in all columns ({2}) and rows follow it: another table seems to begin there; split the file and import the parts by themselves.',
    'La línea {1} tiene palabras en todas las columnas ({2}) y le siguen filas: ahí parece empezar otra tabla; divida el fichero e importe las partes por separado.',
  ],

  // Lines that are learnt.
  [
    "What {1} measures can't be told from the lines: press on the frame and see which number moves.",
    'Qué mide {1} no se puede saber por las líneas: presione sobre la máquina y vea qué número se mueve.',
  ],
  [
    "What {1} measure can't be told from the lines: press on the frame and see which number moves.",
    'Qué miden {1} no se puede saber por las líneas: presione sobre la máquina y vea qué número se mueve.',
  ],
  ['The readout does not say the unit of {1}; enter it.', 'El indicador no dice la unidad de {1}; anótela.'],
  ['field {1}', 'el campo {1}'],
  ['fields {1}', 'los campos {1}'],
  ['Field {1} moves like {2}; check it.', 'El campo {1} se mueve como {2}; compruébelo.'],
  [
    'Field {1} shows the largest value so far, not that of the moment.',
    'El campo {1} muestra el valor mayor hasta ahora, no el del momento.',
  ],
  [
    'The top bit of each byte is a parity bit: the readout sends seven data bits with {1} parity.',
    'El bit superior de cada byte es de paridad: el indicador envía siete bits de datos con paridad {1}.',
  ],
  ['even', 'par'],
  ['odd', 'impar'],
  [
    'Every comma stands before three digits, so it may be a decimal comma or set thousands apart: compare with the display, or learn again with the frame at rest.',
    'Cada coma está delante de tres cifras, así que puede ser decimal o separar millares: compare con el indicador, o aprenda de nuevo con la máquina en reposo.',
  ],
  ['Lines end with {1}.', 'Las líneas terminan en {1}.'],
  [
    'Nothing comes from {1}; check the cable, and whether the readout sends by itself or must be asked.',
    'No llega nada de {1}; revise el cable, y si el indicador envía por sí mismo o hay que pedírselo.',
  ],
  [
    '{1} bytes came from {2}, but they make no lines with numbers; look up its baud rate in the manual of the readout.',
    'De {2} llegaron {1} bytes, pero no forman líneas con números; mire la velocidad en baudios en el manual del indicador.',
  ],
  [
    "{1} can't be read ({2}); check its permissions, or choose another file.",
    '{1} no se puede leer ({2}); revise sus permisos o elija otro fichero.',
  ],
  ['The reply did not end; it is kept raw only.', 'La respuesta no terminó; solo se guarda en bruto.'],
  [
    'The ports of this computer could not be listed ({1}); type the path of the port.',
    'No se pudieron enumerar los puertos de este ordenador ({1}); escriba la ruta del puerto.',
  ],
  [
    'The load comes from "{1}": name that readout first and "{2}" second.',
    'La carga viene de «{1}»: nombre primero ese indicador y «{2}» en segundo lugar.',
  ],
  [
    'Neither "{1}" nor "{2}" has a channel for the force; one of them must.',
    'Ni «{1}» ni «{2}» tienen un canal de fuerza; uno de los dos ha de tenerlo.',
  ],
  [
    'Both "{1}" and "{2}" give {3}; leave the channel out of one of the profiles.',
    'Tanto «{1}» como «{2}» dan {3}; quite ese canal de uno de los perfiles.',
  ],
  [
    'Two instruments of the kind {1} are named; a pull uses one of each kind, so name one of them.',
    'Se nombran dos instrumentos de la clase {1}; un ensayo usa uno de cada clase, así que nombre uno.',
  ],

  // Results, sets and their rules.
  [
    'The lines are read again by the readout profile “{1}”: {2} readings ({3} as recorded), {4} lines that give none.',
    'Las líneas se leen de nuevo con el perfil de lectura «{1}»: {2} lecturas ({3} como se registró), {4} líneas que no dan ninguna.',
  ],
  [
    'The zero of {1} was taken by another profile and is left out; state it as a correction where it counts.',
    'El cero de {1} se tomó con otro perfil y se omite; indíquelo como corrección donde cuente.',
  ],
  [
    'The crosshead travel is to be corrected, but strain is taken from the extensometer, so that it would change nothing; take strain from the crosshead travel, or leave that correction out.',
    'Se pide corregir el recorrido del travesaño, pero la deformación se toma del extensómetro, así que no cambiaría nada; tome la deformación del recorrido del travesaño u omita esa corrección.',
  ],
  [
    'The extension is to be corrected, but strain is taken from the crosshead travel, so that it would change nothing; take strain from the extensometer, or leave that correction out.',
    'Se pide corregir la extensión, pero la deformación se toma del recorrido del travesaño, así que no cambiaría nada; tome la deformación del extensómetro u omita esa corrección.',
  ],
  [
    'The table prints no figure for {1} in the other unit system, so the measured value is converted to {2}.',
    'La tabla no imprime ninguna cifra para {1} en el otro sistema de unidades, así que el valor medido se convierte a {2}.',
  ],
  [
    'The filler class {1} is noted; the limit of this pack belongs to the base metal.',
    'Consta la clase de aporte {1}; el límite de este paquete es del metal base.',
  ],
  [
    'The rules {1} are not in the rules folder any more; {2}.',
    'Las reglas {1} ya no están en la carpeta de reglas; {2}.',
  ],
  [
    'The rules {1} read differently today; {2}. Correct the set to judge it by those of today.',
    'Las reglas {1} dicen hoy otra cosa; {2}. Corrija el conjunto para juzgarlo por las de hoy.',
  ],
  [
    'The rules {1} read differently today in {2}; {3}. Correct the set to judge it by those of today.',
    'Las reglas {1} dicen hoy otra cosa en {2}; {3}. Corrija el conjunto para juzgarlo por las de hoy.',
  ],
  [
    'the set is judged by the rules as they were kept with it',
    'el conjunto se juzga por las reglas tal como se guardaron con él',
  ],
  [
    'A chart of individual values needs at least two of them; pull another specimen or widen the search.',
    'Una gráfica de valores individuales necesita al menos dos; ensaye otra probeta o amplíe la búsqueda.',
  ],
  [
    'The lines rest on {1} values only; from about {2} on they settle.',
    'Las líneas se apoyan en solo {1} valores; desde unos {2} se estabilizan.',
  ],
  [
    'A tolerance bound needs at least two specimens, and there is one.',
    'Un límite de tolerancia necesita al menos dos probetas, y hay una.',
  ],
  [
    'A tolerance bound needs at least two specimens, and there are none.',
    'Un límite de tolerancia necesita al menos dos probetas, y no hay ninguna.',
  ],
  [
    'A lognormal bound needs values above zero; leave out what is not, or ask for the normal distribution.',
    'Un límite lognormal necesita valores mayores que cero; omita los que no lo son, o pida la distribución normal.',
  ],

  ['{1}; both give the same answer.', '{1}; ambas dan la misma respuesta.'],

  // Verification of an extensometer.
  [
    'The gauge length of {1} was not measured, so its error is in no class.',
    'La longitud base de {1} no se midió, así que su error no entra en ninguna clase.',
  ],
  [
    'At least one displacement, or the gauge length, is outside of every class.',
    'Al menos un desplazamiento, o la longitud base, queda fuera de toda clase.',
  ],
  [
    'A class rests on {1} series at least; the worksheet has {2}.',
    'Una clase se apoya en {1} series al menos; la hoja tiene {2}.',
  ],
  [
    'A class rests on {1} displacements at least; the worksheet has {2}.',
    'Una clase se apoya en {1} desplazamientos al menos; la hoja tiene {2}.',
  ],

  // The index for searching, and the folder of rules.
  [
    'The index for searching is being made, newest pulls first: {1} % of {2} pulls can be searched. Everything else works meanwhile, and nothing recorded depends on it.',
    'Se está creando el índice de búsqueda, primero los ensayos más recientes: se puede buscar en el {1} % de {2} ensayos. Todo lo demás funciona entretanto, y nada de lo registrado depende de él.',
  ],
  ['Not every pull can be searched: {1}', 'No se puede buscar en todos los ensayos: {1}'],
  [
    'the index could not be made because of a fault in the program. The pulls themselves are kept.',
    'no se pudo crear el índice por un fallo del programa. Los ensayos mismos están guardados.',
  ],
  [
    "{1}: this folder can't be read ({2}); name a folder that holds rule packs.",
    '{1}: esta carpeta no se puede leer ({2}); elija una con paquetes de reglas.',
  ],
  [
    '{1}: there are {2} files, at most {3} are read; name a folder that holds rule packs only. None of them is used.',
    '{1}: hay {2} ficheros y se leen {3} como mucho; elija una carpeta que solo tenga paquetes de reglas. No se usa ninguno.',
  ],
  [
    'This is no file but a folder or device; take it out of the folder.',
    'No es un fichero, sino una carpeta o un dispositivo; sáquelo de la carpeta.',
  ],
  [
    'It has {1} bytes, at most {2} are read here; a rule pack has a few kilobytes.',
    'Tiene {1} bytes y aquí se leen {2} como mucho; un paquete de reglas tiene unos kilobytes.',
  ],
  ["It can't be read ({1}); check its permissions.", 'No se puede leer ({1}); revise sus permisos.'],
  ['unknown reason', 'motivo desconocido'],
];
