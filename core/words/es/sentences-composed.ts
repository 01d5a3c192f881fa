/**
 * Sentences that the program puts together from several pieces of its text, as they come out: English forms with their
 * Spanish.
 */
export const ES_COMPOSED_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  [
    '{1}: pull {2} is void ({3}, {4}): {5}; it does not count',
    '{1}: el ensayo {2} está anulado ({3}, {4}): {5}; no cuenta',
  ],
  [
    '{1} (area rounded first); on the unrounded area {2}',
    '{1} (área redondeada antes); con el área sin redondear {2}',
  ],
  [
    'It broke {1} from the nearer mark, a third of the gauge length is {2}: the elongation counts.',
    'Rompió a {1} de la marca más próxima; un tercio de la longitud entre marcas son {2}: el alargamiento cuenta.',
  ],
  [
    'It broke {1} from the nearer mark, a third of the gauge length is {2}: the elongation counts only if it still meets the minimum.',
    'Rompió a {1} de la marca más próxima; un tercio de la longitud entre marcas son {2}: el alargamiento solo cuenta si aun así alcanza el mínimo.',
  ],
  [
    'It broke {1} from the nearer mark, a third of the gauge length is {2}: too near, and the minimum of {3} % is not met; the elongation does not count.',
    'Rompió a {1} de la marca más próxima; un tercio de la longitud entre marcas son {2}: demasiado cerca, y no se alcanza el mínimo del {3} %; el alargamiento no cuenta.',
  ],
  [
    'It broke {1} from the nearer mark, a third of the gauge length is {2}; outside, but {3} % meets the minimum of {4} %, so the elongation counts.',
    'Rompió a {1} de la marca más próxima; un tercio de la longitud entre marcas son {2}; fuera, pero el {3} % alcanza el mínimo del {4} %, así que el alargamiento cuenta.',
  ],
  [
    'It broke {1} from the nearer mark, the middle half begins at {2}: the elongation counts.',
    'Rompió a {1} de la marca más próxima; la mitad central empieza a {2}: el alargamiento cuenta.',
  ],
  [
    'It broke {1} from the nearer mark, the middle half begins at {2}: the elongation counts only if it still meets the minimum.',
    'Rompió a {1} de la marca más próxima; la mitad central empieza a {2}: el alargamiento solo cuenta si aun así alcanza el mínimo.',
  ],
  [
    'It broke {1} from the nearer mark, the middle half begins at {2}: too near, and the minimum of {3} % is not met; the elongation does not count.',
    'Rompió a {1} de la marca más próxima; la mitad central empieza a {2}: demasiado cerca, y no se alcanza el mínimo del {3} %; el alargamiento no cuenta.',
  ],
  [
    'It broke {1} from the nearer mark, the middle half begins at {2}; outside, but {3} % meets the minimum of {4} %, so the elongation counts.',
    'Rompió a {1} de la marca más próxima; la mitad central empieza a {2}; fuera, pero el {3} % alcanza el mínimo del {4} %, así que el alargamiento cuenta.',
  ],
  ['ISO 6892 family, IS 1608:2005 clause 11.1: {1}', 'Familia ISO 6892, IS 1608:2005 apartado 11.1: {1}'],
  [
    'ASTM B557-02a 7.8 and E8/E8M in the same terms: {1}',
    'ASTM B557-02a 7.8, y E8/E8M en los mismos términos: {1}',
  ],
  [
    'The rule holds for carbon, carbon-manganese, molybdenum and chromium-molybdenum steels of 300 to 700 MPa, hot rolled, normalised or tempered; not cold worked, not quenched and tempered, not austenitic; whether it does here is for the reader to judge.',
    'La regla vale para aceros al carbono, al carbono-manganeso, al molibdeno y al cromo-molibdeno de 300 a 700 MPa, laminados en caliente, normalizados o revenidos; no deformados en frío, ni templados y revenidos, ni austeníticos; si vale aquí lo ha de juzgar quien lo lee.',
  ],
  [
    'The rule holds for austenitic steels of 450 to 750 MPa, solution treated; not cold worked beyond a quarter; whether it does here is for the reader to judge.',
    'La regla vale para aceros austeníticos de 450 a 750 MPa, solubilizados; no deformados en frío más de un cuarto; si vale aquí lo ha de juzgar quien lo lee.',
  ],
  [
    '{1} of the record on the way there is bridged by straight segments, so the area is no surer than they are.',
    'Hasta ahí, {1} del registro se salva con segmentos rectos, así que el área no es más segura que ellos.',
  ],
  [
    '{1} of the record on the way there are bridged by straight segments, so the area is no surer than they are.',
    'Hasta ahí, {1} del registro se salvan con segmentos rectos, así que el área no es más segura que ellos.',
  ],
  ['{1}: to {2}', '{1}: a {2}'],
  // Which metals have such a slope.
  [
    'magnesium alloys {1}, aluminium alloys {2}, titanium alloys {3}, copper alloys {4}, cast iron {5}, nickel alloys {6}, steel {7}',
    'aleaciones de magnesio {1}, de aluminio {2}, de titanio {3}, de cobre {4}, fundición de hierro {5}, aleaciones de níquel {6}, acero {7}',
  ],
  ['magnesium alloys', 'aleaciones de magnesio'],
  ['titanium alloys', 'aleaciones de titanio'],
  ['copper alloys', 'aleaciones de cobre'],
  ['cast iron', 'fundición de hierro'],
  ['titanium alloys or {1}', 'aleaciones de titanio o {1}'],
  ['copper alloys or {1}', 'aleaciones de cobre o {1}'],
  [
    '0.95 × {1}, the specified minimum of the base metal',
    '0.95 × {1}, el mínimo especificado del metal base',
  ],
  [
    '0.95 × {1}, the lower of the minima, the specified minimum of {2}',
    '0.95 × {1}, el menor de los mínimos, el especificado de {2}',
  ],
  [
    '0.95 × {1}, the higher of the minima, the specified minimum of {2}',
    '0.95 × {1}, el mayor de los mínimos, el especificado de {2}',
  ],
  ['the specified minimum of {1}, which broke', 'el mínimo especificado de {1}, que es el que rompió'],
  [
    'the specified minimum of {1}, if that is the metal that broke',
    'el mínimo especificado de {1}, si es el metal que rompió',
  ],
  [
    '0.95 × {1}, the specified minimum of {2}, which broke',
    '0.95 × {1}, el mínimo especificado de {2}, que es el que rompió',
  ],
  [
    '0.95 × {1}, the specified minimum of {2}, if that is the metal that broke',
    '0.95 × {1}, el mínimo especificado de {2}, si es el metal que rompió',
  ],
  ['the minimum of class {1}', 'el mínimo de la clase {1}'],
  ['the maximum of class {1}', 'el máximo de la clase {1}'],
  [
    'tensile strength {1} ({2} rounded to {3}) (measured {4}), {5} needed ({6}), {7} above (guard band applied)',
    'resistencia a la tracción {1} ({2} redondeado a {3}) (medida {4}), hace falta {5} ({6}), {7} por encima (con la banda de guarda)',
  ],
  [
    'tensile strength {1} ({2} rounded to {3}) (measured {4}), {5} needed ({6}), {7} below (guard band applied)',
    'resistencia a la tracción {1} ({2} redondeado a {3}) (medida {4}), hace falta {5} ({6}), {7} por debajo (con la banda de guarda)',
  ],
  [
    'yield strength {1} ({2} rounded to {3}) (measured {4}), {5} needed ({6}), {7} above (guard band applied)',
    'límite elástico {1} ({2} redondeado a {3}) (medido {4}), hace falta {5} ({6}), {7} por encima (con la banda de guarda)',
  ],
  [
    'yield strength {1} ({2} rounded to {3}) (measured {4}), {5} needed ({6}), {7} below (guard band applied)',
    'límite elástico {1} ({2} redondeado a {3}) (medido {4}), hace falta {5} ({6}), {7} por debajo (con la banda de guarda)',
  ],
  // Rules with their clause.
  ['{1}, 6.10.3.5 (2020), 4.9.3.5 (2010 and 2015)', '{1}, 6.10.3.5 (2020), 4.9.3.5 (2010 y 2015)'],
  ['{1}, 6.10.5 (2020), 4.9.5 (2010 and 2015)', '{1}, 6.10.5 (2020), 4.9.5 (2010 y 2015)'],
  [
    'The set is accepted by {1}: both tests passed.',
    'El conjunto se acepta según {1}: ambos ensayos, conformes.',
  ],
  [
    'The set is accepted by {1}: all {2} tests passed.',
    'El conjunto se acepta según {1}: los {2} ensayos, conformes.',
  ],
  ['0.95 × {1}, the specified minimum of {2}', '0.95 × {1}, el mínimo especificado de {2}'],
  ['shop practice, break in the weld', 'práctica de taller, rotura en la soldadura'],
  [
    'shop practice (location only), break in the plate',
    'práctica de taller (solo el lugar), rotura en la chapa',
  ],
  [
    'shop practice (location only), break in the weld',
    'práctica de taller (solo el lugar), rotura en la soldadura',
  ],
  [
    'tensile strength {1} ({2} rounded to {3}) (measured {4})',
    'resistencia a la tracción {1} ({2} redondeado a {3}) (medida {4})',
  ],
  [
    'yield strength {1} ({2} rounded to {3}) (measured {4})',
    'límite elástico {1} ({2} redondeado a {3}) (medido {4})',
  ],
  ['shop arithmetic: {1}', 'cuentas de taller: {1}'],
  [
    'offset {1} % from the elastic line between {2} and {3} MPa ({4})',
    'desplazamiento del {1} % desde la recta elástica entre {2} y {3} MPa ({4})',
  ],
  ['few readings in the elastic part', 'pocas lecturas en la parte elástica'],
  ['window moved up, out of the toe', 'ventana subida, fuera del pie'],
  ['window moved down, below early yielding', 'ventana bajada, por debajo de la fluencia temprana'],
  ['the whole elastic part, which is bent', 'toda la parte elástica, que está curvada'],
  ['{1} between readings no. {2} and no. {3}', '{1} entre las lecturas n.º {2} y n.º {3}'],
  ['{1}, readings no. {2} to no. {3}', '{1}, lecturas n.º {2} a n.º {3}'],
  [
    'extension, class {1} of ISO 9513{2}: {3} over the {4} of the fit (from memory)',
    'extensión, clase {1} de ISO 9513{2}: {3} sobre los {4} del ajuste (de memoria)',
  ],
  [
    'extensometer gauge length Le, class {1} of ISO 9513{2}: {3} % (from memory)',
    'base del extensómetro Le, clase {1} de ISO 9513{2}: {3} % (de memoria)',
  ],
  ['At = {1}', 'At = {1}'],
  ['A = At − R(fracture)/mE', 'A = At − R(rotura)/mE'],
  ['{1}; extension over gauge length L0 of {2}', '{1}; extensión sobre la longitud entre marcas L0 de {2}'],
  [
    '{1}; extension over extensometer gauge length Le of {2}',
    '{1}; extensión sobre la base del extensómetro Le de {2}',
  ],
  [
    'line through ln σ over ln ε (true, plastic) from {1} % to {2} % plastic strain, {3} steps of equal ratio',
    'recta por ln σ sobre ln ε (verdaderas, plásticas) del {1} % al {2} % de deformación plástica, {3} pasos de igual razón',
  ],
  ['thickness, mean of {1}', 'espesor, media de {1}'],
  ['{1}, measured once', '{1}, medido una vez'],
  ['{1} = largest F after the start of work hardening', '{1} = F mayor tras el comienzo del endurecimiento'],
  ['{1}, reading no. {2} of {3}', '{1}, lectura n.º {2} de {3}'],
  ['{1}, reading no. {2}', '{1}, lectura n.º {2}'],
  [
    'mid-point of the plateau from reading no. {1} to {2}',
    'punto medio de la meseta de la lectura n.º {1} a la {2}',
  ],
  ['lowest reading while yielding{1}', 'lectura más baja durante la fluencia{1}'],
  ['total extension at reading no. {1}, {2}', 'extensión total en la lectura n.º {1}, {2}'],
  [
    'total extension at mid-point of the plateau from reading no. {1} to {2}',
    'extensión total en el punto medio de la meseta de la lectura n.º {1} a la {2}',
  ],
  [
    'extension at reading no. {1}, {2}, elastic part taken off',
    'extensión en la lectura n.º {1}, {2}, sin la parte elástica',
  ],
  [
    'extension at mid-point of the plateau from reading no. {1} to {2}, elastic part taken off',
    'extensión en el punto medio de la meseta de la lectura n.º {1} a la {2}, sin la parte elástica',
  ],
  [
    '{1} between {2} and {3} MPa, 10 % to 40 % of the reference stress',
    '{1} entre {2} y {3} MPa, del 10 % al 40 % de la tensión de referencia',
  ],
  ['{1} between {2} and {3} MPa, moved up out of the toe', '{1} entre {2} y {3} MPa, subida fuera del pie'],
  [
    '{1} between {2} and {3} MPa, moved down, below where yielding begins',
    '{1} entre {2} y {3} MPa, bajada por debajo del comienzo de la fluencia',
  ],
  [
    '{1} between {2} and {3} MPa, few readings: the run with the least uncertainty of its slope',
    '{1} entre {2} y {3} MPa, pocas lecturas: el tramo con la menor incertidumbre de la pendiente',
  ],
  ['{1} between {2} and {3} MPa, set by hand', '{1} entre {2} y {3} MPa, puesto a mano'],
  ['readings no. {1} to {2}', 'lecturas n.º {1} a {2}'],
  ['{1} asks for {2} on a width of {3}', '{1} pide {2} en un ancho de {3}'],
  ['{1} asks for {2} on a thickness of {3}', '{1} pide {2} en un espesor de {3}'],
  ['{1} asks for {2} on a diameter of {3}', '{1} pide {2} en un diámetro de {3}'],
  [
    '{1}; the instrument shows {2}, from the digits typed: fine enough.',
    '{1}; el instrumento muestra {2}, por las cifras escritas: basta.',
  ],
  [
    '{1}; the instrument shows {2}, from the digits typed: too coarse, measure with a finer one.',
    '{1}; el instrumento muestra {2}, por las cifras escritas: demasiado basto, mida con otro más fino.',
  ],
  [
    '{1} in {2}, too slow by {3}; allowed {4}, nearest {5}.',
    '{1} en {2}, demasiado lento por {3}; se permite {4}; lo más próximo, {5}.',
  ],
  ['{1} in {2}, too slow by {3}; allowed {4}.', '{1} en {2}, demasiado lento por {3}; se permite {4}.'],
  ['the record has no time.', 'el registro no tiene tiempos.'],
  ["{1} can't be told from the record.", 'no se distingue en el registro {1}.'],
  ['there is no stress.', 'no hay tensión.'],
  ['there is no extensometer.', 'no hay extensómetro.'],
  [
    'crosshead travel or the parallel length is missing.',
    'falta el recorrido del travesaño o la longitud calibrada.',
  ],
  [
    'there is no extensometer, and crosshead travel or the parallel length is missing.',
    'no hay extensómetro, y falta el recorrido del travesaño o la longitud calibrada.',
  ],
  [
    '{1}: the test is questionable, because {2}. Test a replacement, or have a responsible person decide with a reason. Were that cleared, the answer would be: {3}.',
    '{1}: el ensayo es dudoso, porque {2}. Ensaye una probeta de reemplazo o que una persona responsable decida con un motivo. Aclarado eso, la respuesta sería: {3}.',
  ],
  [
    '{1}: {2}. Decision rule {3}: guard band {4}, acceptance limit {5}.',
    '{1}: {2}. Regla de decisión {3}: banda de guarda {4}, límite de aceptación {5}.',
  ],
  ['Accepted by {1}: {2}.', 'Aceptada según {1}: {2}.'],
  ['Rejected by {1}: {2}.', 'Rechazada según {1}: {2}.'],
  ['Undecided by {1}: {2}.', 'Sin decidir según {1}: {2}.'],
  ['Accepted by {1}', 'Aceptada según {1}'],
  ['Rejected by {1}', 'Rechazada según {1}'],
  ['Undecided by {1}', 'Sin decidir según {1}'],
  [
    '{1}, {2} needed ({3}), {4} below (guard band applied)',
    '{1}, hace falta {2} ({3}), {4} por debajo (con la banda de guarda)',
  ],
  [
    '{1}, {2} needed ({3}), {4} above (guard band applied)',
    '{1}, hace falta {2} ({3}), {4} por encima (con la banda de guarda)',
  ],
  ['tensile strength not known', 'resistencia a la tracción no conocida'],
  ['yield strength not known', 'límite elástico no conocido'],
  ['elongation not known', 'alargamiento no conocido'],
  [
    'the higher of the minima, the specified minimum of {1}',
    'el mayor de los mínimos, el especificado de {1}',
  ],
  [
    'the lower of the minima, the specified minimum of {1}',
    'el menor de los mínimos, el especificado de {1}',
  ],
  [
    'the tensile strength is not given, and {1} is asked for; measure it and enter it',
    'falta la resistencia a la tracción, y se pide {1}; mídala y anótela',
  ],
  [
    'the yield strength is not given, and {1} is asked for; measure it and enter it',
    'falta el límite elástico, y se pide {1}; mídalo y anótelo',
  ],
  [
    'the elongation is not given, and {1} is asked for; measure it and enter it',
    'falta el alargamiento, y se pide {1}; mídalo y anótelo',
  ],
  [
    'The set is accepted by {1} with a deviation ({2}): its one test passed.',
    'El conjunto se acepta según {1} con una desviación ({2}): su único ensayo, conforme.',
  ],
  [
    'The set is accepted by {1} with a deviation ({2}): both tests passed.',
    'El conjunto se acepta según {1} con una desviación ({2}): ambos ensayos, conformes.',
  ],
  [
    'The set is accepted by {1} with a deviation ({2}): all {3} tests passed.',
    'El conjunto se acepta según {1} con una desviación ({2}): los {3} ensayos, conformes.',
  ],
  [
    'The set is accepted by {1}: {2} passed, {3} by way of retests.',
    'El conjunto se acepta según {1}: {2}, conforme; {3} mediante repeticiones.',
  ],
  [
    '1 specimen instead of the {1} that {2} asks for ({3}): {4}',
    '1 probeta en vez de las {1} que pide {2} ({3}): {4}',
  ],
  [
    '{1} specimens instead of the {2} that {3} asks for ({4}): {5}',
    '{1} probetas en vez de las {2} que pide {3} ({4}): {5}',
  ],
  ['1 specimen is asked for ({1}) and {2} is there', 'se pide 1 probeta ({1}) y hay {2}'],
  ['1 specimen is asked for ({1}) and {2} are there', 'se pide 1 probeta ({1}) y hay {2}'],
  ['{1} specimens are asked for ({2}) and {3} is there', 'se piden {1} probetas ({2}) y hay {3}'],
  ['{1} specimens are asked for ({2}) and {3} are there', 'se piden {1} probetas ({2}) y hay {3}'],
  ['{1} specimens are asked for and {2} are there', 'se piden {1} probetas y hay {2}'],
  ['{1} specimens are asked for and {2} is there', 'se piden {1} probetas y hay {2}'],
  ['this is empty; fill it in.', 'está vacío; rellénelo.'],
  [
    'The recorder ended {1} times within a minute and is left alone. What it had saved is safe. See whether the disk is full, unplug the readout, then choose "try again".',
    'El registrador terminó {1} veces en un minuto y se deja en paz. Lo que había guardado está a salvo. Mire si el disco está lleno, desenchufe el indicador y elija «intentar de nuevo».',
  ],
  // The state of a session, as what is refused in it names it.
  ['session is "closed"', 'el estado es «Sin indicador»'],
  ['session is "listening"', 'el estado es «Escuchando»'],
  ['session is "ready"', 'el estado es «Listo, a la espera de carga»'],
  ['session is "pulling"', 'el estado es «En tracción»'],
  ['session is "broken"', 'el estado es «Rota»'],
  ['session is "stopped"', 'el estado es «Fin marcado a mano»'],
  ['session is "ended"', 'el estado es «Registro cerrado»'],
  // What was counted in a file.
  [
    'No line of the file holds a row of numbers; give a table of readings, or say where its rows begin.',
    'Ninguna línea del fichero contiene una fila de números; indique una tabla de lecturas, o diga dónde empiezan sus filas.',
  ],
  [
    'No line of the first {1} holds a row of numbers; give a table of readings, or say where its rows begin.',
    'Ninguna de las primeras {1} líneas contiene una fila de números; indique una tabla de lecturas, o diga dónde empiezan sus filas.',
  ],
  [
    'cells kept apart by {1}: {2} rows of 1 cell in the first {3} lines',
    'celdas separadas por {1}: {2} filas de 1 celda en las primeras {3} líneas',
  ],
  [
    'cells kept apart by {1}: {2} rows of {3} cells in the first {4} lines',
    'celdas separadas por {1}: {2} filas de {3} celdas en las primeras {4} líneas',
  ],
  [
    'Is column {1}, {2}, {3} in an unknown unit? ({4})',
    '¿Es la columna {1}, {2}, {3} en una unidad desconocida? ({4})',
  ],
  ['Is column {1}, {2}, {3} in {4}? ({5})', '¿Es la columna {1}, {2}, {3} en {4}? ({5})'],
  ['a time', 'un tiempo'],
  ['a force', 'una fuerza'],
  ['an extension', 'una extensión'],
  ['a travel', 'un recorrido'],
  ['a stress', 'una tensión'],
  ['a strain', 'una deformación'],
  ['a true stress', 'una tensión verdadera'],
  ['a true strain', 'una deformación verdadera'],
  ['left out because it follows from the time', 'se omite porque se deduce del tiempo'],
  ['left out because it follows from the force', 'se omite porque se deduce de la fuerza'],
  ['left out because it follows from the extension', 'se omite porque se deduce de la extensión'],
  ['left out because it follows from the travel', 'se omite porque se deduce del recorrido'],
  ['left out because it follows from the stress', 'se omite porque se deduce de la tensión'],
  ['left out because it follows from the strain', 'se omite porque se deduce de la deformación'],
  ['left out because it follows from the true-stress', 'se omite porque se deduce de la tensión verdadera'],
  [
    'left out because it follows from the true-strain',
    'se omite porque se deduce de la deformación verdadera',
  ],
  ['{1} cells under 1 name', '{1} celdas bajo 1 nombre'],
  ['{1} cells under {2} names', '{1} celdas bajo {2} nombres'],
  [
    'From line {1} on, commas stand between the cells and may be the decimal sign as well ({2} cells, no decimal point, and 1 column named); write the file with semicolons or tabs between the cells, or, where no comma is a decimal sign, name every column, "-" for one to leave out.',
    'Desde la línea {1} hay comas entre las celdas y pueden ser también el signo decimal ({2} celdas, ningún punto decimal y 1 columna nombrada); escriba el fichero con punto y coma o tabuladores entre las celdas o, si ninguna coma es signo decimal, nombre todas las columnas, con «-» por la que haya que omitir.',
  ],
  [
    'From line {1} on, commas stand between the cells and may be the decimal sign as well ({2} cells, no decimal point, and {3} columns named); write the file with semicolons or tabs between the cells, or, where no comma is a decimal sign, name every column, "-" for one to leave out.',
    'Desde la línea {1} hay comas entre las celdas y pueden ser también el signo decimal ({2} celdas, ningún punto decimal y {3} columnas nombradas); escriba el fichero con punto y coma o tabuladores entre las celdas o, si ninguna coma es signo decimal, nombre todas las columnas, con «-» por la que haya que omitir.',
  ],
  [
    '{1} columns are named but the rows of the file have 1 cell; name as many as there are.',
    'Se nombran {1} columnas, pero las filas del fichero tienen 1 celda; nombre tantas como haya.',
  ],
  [
    '{1} columns are named but the rows of the file have {2} cells; name as many as there are.',
    'Se nombran {1} columnas, pero las filas del fichero tienen {2} celdas; nombre tantas como haya.',
  ],
  [
    'The set is accepted by {1} with a deviation ({2}): {3} passed.',
    'El conjunto se acepta según {1} con una desviación ({2}): {3}, conforme.',
  ],
  [
    'The set is accepted by {1} with a deviation ({2}): {3} passed, {4} by way of retests.',
    'El conjunto se acepta según {1} con una desviación ({2}): {3}, conforme; {4} mediante repeticiones.',
  ],
  ['session is "{1}"', 'el estado es «{1}»'],
  [
    'it broke in the grips, so the strength of the weld was not reached and is only known to be at least the value measured ({1})',
    'rompió en las mordazas, así que no se alcanzó la resistencia de la soldadura y solo se sabe que es al menos el valor medido ({1})',
  ],
  [
    'it broke at a machining mark, which may have started the fracture ({1})',
    'rompió en una marca de mecanizado, que pudo iniciar la rotura ({1})',
  ],
  [
    'it broke at a stamp mark, which may have started the fracture ({1})',
    'rompió en una marca estampada, que pudo iniciar la rotura ({1})',
  ],
  // With what is said of columns that are named nearly right before it.
  [
    '{1}. Line {2} is no header of a curve: none of its columns ({3}) is named like {4}; name them so.',
    '{1}. La línea {2} no es el encabezado de una curva: ninguna de sus columnas ({3}) se llama como {4}; nómbrelas así.',
  ],
  [
    'The set is accepted by {1}: no test is asked for, none passed.',
    'El conjunto se acepta según {1}: no se pide ningún ensayo.',
  ],
  [
    'The set is accepted by {1} with a deviation ({2}): no test is asked for, none passed.',
    'El conjunto se acepta según {1} con una desviación ({2}): no se pide ningún ensayo.',
  ],
  [
    'The set is accepted by {1}: no test is asked for, none passed, {2} by way of retests.',
    'El conjunto se acepta según {1}: no se pide ningún ensayo; {2} mediante repeticiones.',
  ],
  [
    'The set is accepted by {1} with a deviation ({2}): no test is asked for, none passed, {3} by way of retests.',
    'El conjunto se acepta según {1} con una desviación ({2}): no se pide ningún ensayo; {3} mediante repeticiones.',
  ],
  // A column that was named by hand.
  [
    'Column {1} of the columns given: {2}; name it like time_s, force_kN, extension_mm, travel_mm, stress_MPa or strain_percent, or "-" to leave it out.',
    'Columna {1} de las indicadas: {2}; nómbrela como time_s, force_kN, extension_mm, travel_mm, stress_MPa o strain_percent, o «-» para omitirla.',
  ],
  [
    "Column {1} of the columns given: only stress and strain can be true values, {2} can't.",
    'Columna {1} de las indicadas: solo la tensión y la deformación pueden ser valores verdaderos, {2} no.',
  ],
  [
    'Column {1} of the columns given: {2} is given twice; write "-" for the one that is not to be used.',
    'Columna {1} de las indicadas: {2} está dos veces; escriba «-» por la que no se haya de usar.',
  ],
  // An instrument of which not everything is known.
  [
    'The calibration of the {1} was due on an unknown day and is overdue (certificate {2}).',
    'La calibración vencía en una fecha desconocida y está vencida: {1} (certificado {2}).',
  ],
  [
    'The calibration of the {1} was due on {2} and is overdue (certificate unknown).',
    'La calibración vencía el {2} y está vencida: {1} (certificado desconocido).',
  ],
  [
    'The calibration of the {1} was due on an unknown day and is overdue (certificate unknown).',
    'La calibración vencía en una fecha desconocida y está vencida: {1} (certificado desconocido).',
  ],
  ['frame {1}', 'máquina {1}'],
  ['force channel {1}', 'canal de fuerza {1}'],
  ['extensometer {1}', 'extensómetro {1}'],
  ['calliper {1}', 'calibre {1}'],
  ['"{1}" or "{2}"', '"{1}" o "{2}"'],
  ['"{1}", "{2}" or "{3}"', '"{1}", "{2}" o "{3}"'],

  // What a verification of forces leaves to be said.
  [
    'ISO 7500-1 rests on {1} runs and there is 1; add the others.',
    'ISO 7500-1 se apoya en {1} series y hay 1; añada las otras.',
  ],
  [
    'ISO 7500-1 rests on {1} runs and there are {2}; add the others.',
    'ISO 7500-1 se apoya en {1} series y hay {2}; añada las otras.',
  ],
  [
    'What was indicated without force is not noted; add it under "zeros".',
    'No consta lo que se indicó sin fuerza; añádalo en la línea «Sin fuerza».',
  ],
  [
    'At some force, or at zero, even the limits of class 3 are passed; the range of each class tells where it holds.',
    'En alguna fuerza, o en cero, se pasan incluso los límites de la clase 3; el alcance de cada clase dice dónde se cumple.',
  ],
  [
    'ISO 7500-1 rests on {1} forces at least (from memory); the worksheet has {2}.',
    'ISO 7500-1 se apoya en al menos {1} fuerzas (de memoria); la hoja tiene {2}.',
  ],
  [
    'ASTM E4 rests on {1} runs and there is 1; add another.',
    'ASTM E4 se apoya en {1} series y hay 1; añada otra.',
  ],
  [
    '{1} of the forces lies below 200 times the resolution.',
    '{1} de las fuerzas queda por debajo de 200 veces la resolución.',
  ],
  [
    '{1} of the forces lie below 200 times the resolution.',
    '{1} de las fuerzas quedan por debajo de 200 veces la resolución.',
  ],
  [
    'Nothing was read on the way down, so the reversibility was not looked at; it is needed only where it is asked for.',
    'No se leyó nada al bajar, así que no se miró la reversibilidad; solo hace falta donde se pide.',
  ],
  [
    '{1} force lies from {2} to {3}; at least {4} are asked for in a range or decade (ASTM E4-16, 10.2).',
    '{1} fuerza está entre {2} y {3}; se piden al menos {4} en un alcance o década (ASTM E4-16, 10.2).',
  ],
  [
    '{1} forces lie from {2} to {3}; at least {4} are asked for in a range or decade (ASTM E4-16, 10.2).',
    '{1} fuerzas están entre {2} y {3}; se piden al menos {4} en un alcance o década (ASTM E4-16, 10.2).',
  ],
  [
    '{1} and {2} lie further apart than a third of the range from {3} to {4} (ASTM E4-16, 10.2).',
    '{1} y {2} están más separadas que un tercio del alcance entre {3} y {4} (ASTM E4-16, 10.2).',
  ],
  // What an evaluation departs in from the plain way.
  ['S0 is the least of the measured sections.', 'S0 es la menor de las secciones medidas.'],
  ['S0 is the centre of the measured sections.', 'S0 es la del centro de las secciones medidas.'],
  ['Reported values are rounded by no rule.', 'Los valores informados no se redondean por ninguna regla.'],
  [
    'Final section of a flat specimen: a parabola through three thicknesses.',
    'Sección final de una probeta plana: una parábola por tres espesores.',
  ],
  [
    'Final section of a flat specimen: width times thickness.',
    'Sección final de una probeta plana: ancho por espesor.',
  ],
  ['{1} is taken off every force as its zero.', 'A cada fuerza se le quitan {1} como su cero.'],
  ['{1} is taken off every extension as its zero.', 'A cada extensión se le quitan {1} como su cero.'],
  ['{1} is taken off every travel as its zero.', 'A cada recorrido se le quitan {1} como su cero.'],
  [
    'Force is corrected by a calibration table of {1} points.',
    'La fuerza se corrige con una tabla de calibración de {1} puntos.',
  ],
  [
    'Extension is corrected by a calibration table of {1} points.',
    'La extensión se corrige con una tabla de calibración de {1} puntos.',
  ],
  ['{1}, ISO 2566-1 (carbon steel)', '{1}, ISO 2566-1 (acero al carbono)'],
  ['{1}, ISO 2566-2 (austenitic steel)', '{1}, ISO 2566-2 (acero austenítico)'],
  [
    'It broke outside the gauge length, so an elongation between the marks is not representative.',
    'Rompió fuera de la longitud entre marcas, así que un alargamiento entre ellas no es representativo.',
  ],
  [
    'It broke at a gauge mark, so an elongation between the marks is not representative.',
    'Rompió en una marca, así que un alargamiento entre ellas no es representativo.',
  ],
  // The class of a calibration that a worksheet gave, and what its working rests on.
  ['class {1} (ISO 7500-1)', 'clase {1} (ISO 7500-1)'],
  ['class {1} (ISO 7500-1), within ±1 % (ASTM E4)', 'clase {1} (ISO 7500-1), dentro de ±1 % (ASTM E4)'],
  ['class {1} (ISO 9513)', 'clase {1} (ISO 9513)'],
  ['class {1} (ISO 9513), class {2} (ASTM E83)', 'clase {1} (ISO 9513), clase {2} (ASTM E83)'],
  ['class {1} (ASTM E83)', 'clase {1} (ASTM E83)'],
  ['within ±1 % (ASTM E4)', 'dentro de ±1 % (ASTM E4)'],
  [
    'ISO 7500-1 (q and b as in ISO 7500-1:1999, annex C; v, a and f0 from memory)',
    'ISO 7500-1 (q y b como en ISO 7500-1:1999, anexo C; v, a y f0 de memoria)',
  ],
  [
    'ASTM E4 (error E4-14, lower limit E4-16 10.1; repeatability from memory)',
    'ASTM E4 (error según E4-14, límite inferior según E4-16, 10.1; repetibilidad de memoria)',
  ],
  ['strain {1} of {2}', 'deformación {1} de {2}'],
];
