/** What is refused at the desk: search, export, evaluations, rules. English forms with their Spanish. */
export const ES_DESK_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  // While a pull is being recorded.
  [
    'While a pull is being recorded no sets are judged; close the record first.',
    'Mientras se registra un ensayo no se juzga ningún conjunto; cierre antes el registro.',
  ],
  [
    'While a pull is being recorded the processor belongs to the record; run the self-check after it is closed.',
    'Mientras se registra un ensayo el procesador es para el registro; haga la autocomprobación cuando esté cerrado.',
  ],
  [
    'While a pull is being recorded the archive is not {1}; close the record first.',
    'Mientras se registra un ensayo el archivo no {1}; cierre antes el registro.',
  ],
  ['checked', 'se comprueba'],
  ['imported into', 'admite importaciones'],
  ['merged', 'se une a otro'],
  ['exported from', 'se exporta'],
  ['left for another one', 'se deja por otro'],
  ['restored', 'se restaura'],
  [
    'A pull is being recorded, so the table was not worked out further and no file was written; close the record first.',
    'Se está registrando un ensayo, así que la tabla no se siguió calculando y no se escribió ningún fichero; cierre antes el registro.',
  ],

  [
    'This pull is in {1}, which is only read here, so nothing was done; open that archive to do it there.',
    'Este ensayo está en {1}, que aquí solo se lee, así que no se hizo nada; abra ese archivo para hacerlo allí.',
  ],

  // Search.
  ['{1} searches are kept already; forget one first.', 'Ya hay {1} búsquedas guardadas; olvide antes una.'],
  [
    'The key after which the page is to begin is none that a page ended with; take the "next" of the page before.',
    'La clave tras la que ha de empezar la página no es el final de ninguna; tome el «next» de la página anterior.',
  ],
  [
    'These pulls give {1} columns, and a table has at most {2}; choose the columns, or narrow the search.',
    'Estos ensayos dan {1} columnas y una tabla tiene {2} como mucho; elija las columnas o acote la búsqueda.',
  ],
  [
    '{1} pulls are found, and at most {2} are printed; narrow the search, or write a spreadsheet.',
    'Se encontraron {1} ensayos y se imprimen {2} como mucho; acote la búsqueda o escriba una hoja de cálculo.',
  ],
  [
    'These pulls give {1} columns, and at most {2} can be read on paper; choose fewer.',
    'Estos ensayos dan {1} columnas y en papel se leen {2} como mucho; elija menos.',
  ],
  [
    '{1} pulls are found, and a table is worked out for at most {2}; narrow the search, by its days for example.',
    'Se encontraron {1} ensayos y se calcula una tabla de {2} como mucho; acote la búsqueda, por ejemplo por sus días.',
  ],

  // Export.
  [
    'A pull is not written as {1}; end the name with .csv, .json or .jsonld. Pictures are drawn of its curve, and a table of results is written of what a search finds.',
    'Un ensayo no se escribe como {1}; termine el nombre en .csv, .json o .jsonld. De su curva se dibujan imágenes, y de lo que encuentra una búsqueda se escribe una tabla de resultados.',
  ],
  [
    'The form {1} is CSV, and the name ends as if it were not; end it with .csv.',
    'El formato {1} es CSV y el nombre termina como si no lo fuera; termínelo en .csv.',
  ],
  ['The form {1} needs a name that ends with {2}.', 'El formato {1} necesita un nombre que termine en {2}.'],
  [
    'The export to {1} did not arrive whole on its disk, so it was not kept; try another disk.',
    'La exportación a {1} no llegó entera a su disco, así que no se guardó; pruebe otro disco.',
  ],
  [
    'The program reads and writes only files that were chosen in its own dialog. Nothing was done.',
    'El programa solo lee y escribe ficheros elegidos en su propio diálogo. No se hizo nada.',
  ],
  [
    'What was to be saved is no picture of that form; nothing was written.',
    'Lo que se iba a guardar no es una imagen de ese formato; no se escribió nada.',
  ],

  // Photos.
  [
    'It is no ordinary file; choose another. Nothing was kept.',
    'No es un fichero corriente; elija otro. No se guardó nada.',
  ],
  ['It could not be read ({1}). Nothing was kept.', 'No se pudo leer ({1}). No se guardó nada.'],

  // Evaluations.
  [
    'Pull {1} was typed from the frame’s display and has no readings, so corrections would change nothing; make it void and type it anew, or leave the corrections out.',
    'El ensayo {1} se tecleó desde el indicador de la máquina y no tiene lecturas, así que las correcciones no cambiarían nada; anúlelo y escríbalo de nuevo, u omita las correcciones.',
  ],
  [
    'Pull {1} was typed from the frame’s display and has no lines, so another readout profile would change nothing.',
    'El ensayo {1} se tecleó desde el indicador de la máquina y no tiene líneas, así que otro perfil de lectura no cambiaría nada.',
  ],
  [
    'Pull {1} was read from a file and not from lines of a readout; read its rows by another plan instead, in the window or with --columns.',
    'El ensayo {1} se leyó de un fichero y no de líneas de un indicador; lea en su lugar sus filas con otro plan, en la ventana o con --columns.',
  ],
  [
    'By the readout profile "{1}" pull {2} would have more than {3} readings; choose another profile.',
    'Según el perfil de lectura «{1}» el ensayo {2} tendría más de {3} lecturas; elija otro perfil.',
  ],
  [
    'No line of pull {1} fits the readout profile "{2}" ({3} do not); choose the profile of the readout that sent them.',
    'Ninguna línea del ensayo {1} encaja con el perfil de lectura «{2}» ({3} no encajan); elija el perfil del indicador que las envió.',
  ],
  ['The options are wrong.', 'Las opciones son erróneas.'],
  [
    'Nothing is evaluated, since an option is wrong: {1}',
    'No se evalúa nada, porque una opción es errónea: {1}',
  ],
  [
    'Nothing is evaluated, since a size of the specimen is wrong: {1}.',
    'No se evalúa nada, porque una medida de la probeta es errónea: {1}.',
  ],
  [
    'At its largest ({1}) {2}: the end of the range of load cell or readout, and only a lower bound.',
    'En su mayor valor ({1}) {2}: el final del alcance de la célula de carga o del indicador, y solo un límite inferior.',
  ],
  [
    'The slope of the elastic part, {1}, is at room temperature one of {2}, of no steel (185 to 220 GPa) and no aluminium alloy (66 to 80 GPa; handbook values, from memory): if the specimen is one of these, a scale, a unit or the gauge length is wrong.',
    'La pendiente de la parte elástica, {1}, es a temperatura ambiente propia de {2}, no de ningún acero (185 a 220 GPa) ni de ninguna aleación de aluminio (66 a 80 GPa; valores de manual, de memoria): si la probeta es de uno de estos, una escala, una unidad o la longitud entre marcas es errónea.',
  ],

  // The specimen.
  [
    'geometry.wall: a wall of {1} leaves no bore in an outside diameter of {2}; check both.',
    'geometry.wall: una pared de {1} no deja hueco en un diámetro exterior de {2}; revise ambos.',
  ],
  [
    'geometry.width: a strip of {1} is wider than the bore of {2}; check width, wall and outside diameter.',
    'geometry.width: una tira de {1} es más ancha que el hueco de {2}; revise el ancho, la pared y el diámetro exterior.',
  ],
  ['"{1}" is below zero; measure again.', '«{1}» es menor que cero; mida de nuevo.'],
  [
    'The text is longer than {1} characters; type one value with its unit.',
    'El texto tiene más de {1} caracteres; escriba un valor con su unidad.',
  ],
  [
    '"{1}" is given in {2}, but a {3} is needed here; use for example {4}.',
    '«{1}» está en {2}, pero aquí se necesita otra magnitud ({3}); use por ejemplo {4}.',
  ],

  // Rules and verdicts.
  ['The rules "{1}" can\'t be judged by: {2}', 'No se puede juzgar según las reglas «{1}»: {2}'],
  [
    'Pull {1} is in no set, and metals and minima are said of a set; put its specimen into one, then choose other rules.',
    'El ensayo {1} no está en ningún conjunto, y los metales y mínimos se indican de un conjunto; ponga su probeta en uno y luego elija otras reglas.',
  ],
  ['the appearance of the fracture is not noted; note it', 'no consta el aspecto de la rotura; anótelo'],
  [
    'the {1} is not given, and {2} is asked for; measure it and enter it',
    'falta este valor: {1}, y se pide {2}; mídalo y anótelo',
  ],
  [
    '{1}, and the answer depends on it; the value printed for the material governs, so leave out either the material or the stated minimum',
    '{1}, y de ello depende la respuesta; rige el valor impreso para el material, así que omita el material o el mínimo indicado',
  ],
  [
    'the minimum {1} stated for {2} is {3}, but the table prints {4}',
    'el mínimo ({1}) indicado para {2} es {3}, pero la tabla imprime {4}',
  ],
  [
    'the minimum of the base metal that broke is not known; enter it',
    'no se conoce el mínimo del metal base que rompió; anótelo',
  ],
  [
    'the filler class {1} is not in the tables of this pack; correct the class, or enter its minima',
    'la clase de aporte {1} no está en las tablas de este paquete; corrija la clase o anote sus mínimos',
  ],
  [
    'Decided by {1} as "{2}": {3}. The rules said: {4}',
    'Decidido por {1} como «{2}»: {3}. Las reglas decían: {4}',
  ],
];
