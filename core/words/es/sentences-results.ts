/** The working of results, what it rests on, testing speed, resolution of instruments: English forms with their Spanish. */
export const ES_RESULT_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  // Ended.
  [
    'The answer to "{1}" is longer than the {2} MiB that a message may have; ask for less at once. What is recorded is safe.',
    'La respuesta a «{1}» es más larga que los {2} MiB que puede tener un mensaje; pida menos de una vez. Lo registrado está a salvo.',
  ],
  [
    'The evaluation needed more memory than it may take ({1} MiB), so it was ended. What is recorded is safe, and recording goes on. Evaluate the pull again; if that ends so again, export the pull and report it with its file.',
    'La evaluación necesitó más memoria de la que puede tomar ({1} MiB), así que se terminó. Lo registrado está a salvo y el registro sigue. Evalúe de nuevo el ensayo; si vuelve a terminar así, expórtelo y comuníquelo con su archivo.',
  ],
  [
    'The evaluation had no result after {1} s, so it was ended. What is recorded is safe, and recording goes on. Evaluate the pull again when the computer has less to do; if that ends so again, export the pull and report it with its file.',
    'La evaluación no dio resultado en {1} s, así que se terminó. Lo registrado está a salvo y el registro sigue. Evalúe de nuevo el ensayo cuando el ordenador tenga menos que hacer; si vuelve a terminar así, expórtelo y comuníquelo con su archivo.',
  ],
  // The working.
  ['width, mean of {1}', 'ancho, media de {1}'],
  ['mean of {1} measurements', 'media de {1} mediciones'],
  ['mean of the measurements', 'media de las mediciones'],
  ['least of the measured sections', 'la menor de las secciones medidas'],
  ['at the least section', 'en la sección menor'],
  ['section at the centre', 'sección en el centro'],
  ['measured once', 'medido una vez'],
  ['mean of {1}', 'media de {1}'],
  ['least section measured: {1}', 'sección menor medida: {1}'],
  [
    'area rounded first, to {1} significant digits (common practice, no source)',
    'área redondeada antes, a {1} cifras significativas (práctica común, sin fuente)',
  ],
  [
    'The dimensions were not measured equally often, so the smallest of each stands for the least section; that can make the area too small and the strength too high.',
    'Las dimensiones no se midieron el mismo número de veces, así que la menor de cada una vale por la sección menor; eso puede dar un área demasiado pequeña y una resistencia demasiado alta.',
  ],
  ['geometry; width × thickness in the reduced section', 'geometría; ancho × espesor en la sección reducida'],
  ['geometry; full section of a tube', 'geometría; sección entera de un tubo'],
  [
    'ISO 6892-1, clause 7 (mean of the measured sections; from memory)',
    'ISO 6892-1, apartado 7 (media de las secciones medidas; de memoria)',
  ],
  [
    'ASME IX QW-152 and API 1104 5.6.2 (least section measured before loading)',
    'ASME IX QW-152 y API 1104 5.6.2 (sección menor medida antes de la carga)',
  ],
  [
    'ASTM E8/E8M 7.2.1 (centre of the reduced section; from memory)',
    'ASTM E8/E8M 7.2.1 (centro de la sección reducida; de memoria)',
  ],
  ['as measured', 'como se midió'],
  ['measured gauge length', 'longitud entre marcas medida'],
  ['measured gauge length, mean of {1}', 'longitud entre marcas medida, media de {1}'],
  ['measurement before the test', 'medición antes del ensayo'],
  [
    'No gauge length was given; enter the length between the marks.',
    'No se dio la longitud entre marcas; anote la distancia entre las marcas.',
  ],
  ['measured dimensions of the specimen', 'dimensiones medidas de la probeta'],
  ['{1} = largest F', '{1} = F mayor'],
  ['at {1} by the clock of the curve', 'a los {1} por el reloj de la curva'],
  ['at {1} % extension', 'al {1} % de extensión'],
  ['time of the reading, by the clock of the curve', 'tiempo de la lectura, por el reloj de la curva'],
  ['same reading', 'la misma lectura'],
  ['same readings', 'las mismas lecturas'],
  ['same line', 'la misma recta'],
  ['from memory', 'de memoria'],
  ['largest reading', 'lectura mayor'],
  ['largest reading, spikes left out', 'lectura mayor, sin los picos sueltos'],
  ['largest reading after the start of work hardening', 'lectura mayor tras el comienzo del endurecimiento'],
  [
    'ISO 6892-1, maximum force; with a yield point the maximum after the start of work hardening (from memory)',
    'ISO 6892-1, fuerza máxima; con punto de fluencia, el máximo tras el comienzo del endurecimiento (de memoria)',
  ],
  ['reading no. {1}', 'lectura n.º {1}'],
  ['no. {1}', 'n.º {1}'],
  ['then a fall of {1} %', 'luego una caída del {1} %'],
  ['reading no. {1}, {2}', 'lectura n.º {1}, {2}'],
  ['reading no. {1}; then a fall of {2} %', 'lectura n.º {1}; luego una caída del {2} %'],
  ['the largest force', 'la fuerza mayor'],
  ['the last before the force collapses', 'la última antes de que caiga la fuerza'],
  ['the last at 10 % of the maximum force or more', 'la última al 10 % de la fuerza máxima o más'],
  ['marked as the break', 'marcada como rotura'],
  ['where the specimen was let off', 'donde se descargó la probeta'],
  ['the last of the record', 'la última del registro'],
  [
    'highest reading before the first fall of force',
    'lectura más alta antes de la primera caída de la fuerza',
  ],
  ['{1} = highest R before the first fall', '{1} = R mayor antes de la primera caída'],
  [
    'ISO 6892-1, Annex A: fall of at least 0.5 %, then at least 0.05 % strain without exceeding it (from memory)',
    'ISO 6892-1, anexo A: caída del 0.5 % como mínimo, después al menos 0.05 % de deformación sin superarla (de memoria)',
  ],
  [', the first transient left out', ', sin el primer transitorio'],
  [
    '{1} = lowest R while yielding, initial transient ignored',
    '{1} = R menor durante la fluencia, sin el transitorio inicial',
  ],
  ['ISO 6892-1, lower yield strength (from memory)', 'ISO 6892-1, límite elástico inferior (de memoria)'],
  ['first transient left out: {1} MPa', 'primer transitorio omitido: {1} MPa'],
  [
    'from the upper yield to where the last minimum’s stress meets the steepest hardening',
    'desde la fluencia superior hasta donde la tensión del último mínimo corta el endurecimiento más empinado',
  ],
  ['{1} = e(start of hardening) − e(ReH)', '{1} = e(comienzo del endurecimiento) − e(ReH)'],
  [
    'horizontal through the last minimum, met by the steepest line of the hardening after it',
    'horizontal por el último mínimo, cortada por la recta más empinada del endurecimiento posterior',
  ],
  [
    'ISO 6892-1, percentage yield point extension (from memory)',
    'ISO 6892-1, extensión porcentual en el punto de fluencia (de memoria)',
  ],
  ['line through {1} readings', 'recta por {1} lecturas'],
  ['line through {1} readings{2}', 'recta por {1} lecturas{2}'],
  [
    'offset {1} % from the elastic line between {2} and {3} MPa',
    'desplazamiento del {1} % desde la recta elástica entre {2} y {3} MPa',
  ],
  [
    'ISO 6892-1, proof strength, plastic extension; ASTM E8/E8M 7.7.1, offset method',
    'ISO 6892-1, límite elástico, extensión plástica; ASTM E8/E8M 7.7.1, método del desplazamiento',
  ],
  [
    'straight line through {1} readings within 0.02 % of the crossing',
    'recta por {1} lecturas a menos del 0.02 % del cruce',
  ],
  ['straight line between the two readings', 'recta entre las dos lecturas'],
  ['straight line through {1} readings about it', 'recta por {1} lecturas alrededor'],
  [
    'stress at {1} % total extension, extension from {2}',
    'tensión a una extensión total del {1} %, extensión desde {2}',
  ],
  ['the record’s own zero', 'el propio cero del registro'],
  ['the foot of the elastic line', 'el pie de la recta elástica'],
  ['foot of the elastic line', 'pie de la recta elástica'],
  ['zero of the record', 'cero del registro'],
  ['extension as recorded', 'extensión como se registró'],
  [
    'ISO 6892-1, proof strength, total extension; ASTM E8/E8M 7.7.2, extension-under-load method',
    'ISO 6892-1, límite elástico, extensión total; ASTM E8/E8M 7.7.2, método de la extensión bajo carga',
  ],
  [
    'ISO 6892-1, extensions at maximum force and at fracture (from memory)',
    'ISO 6892-1, extensiones bajo fuerza máxima y en la rotura (de memoria)',
  ],
  [
    'The force stays within 0.1 % of its maximum from {1} % to {2} % extension, so the extension at the maximum is no sharper than that.',
    'La fuerza se mantiene a menos del 0.1 % de su máximo del {1} % al {2} % de extensión, así que la extensión en el máximo no es más precisa.',
  ],
  [
    'Neighbouring readings at {1} are {2} % of extension apart, so the value is no surer than that.',
    'Las lecturas vecinas ({1}) distan un {2} % de extensión, así que el valor no es más seguro que eso.',
  ],
  [
    'The extension is reached between two readings far apart ({1} and {2} MPa).',
    'La extensión se alcanza entre dos lecturas muy separadas ({1} y {2} MPa).',
  ],
  [
    'Extension counts from the record’s own zero.',
    'La extensión se cuenta desde el propio cero del registro.',
  ],
  ['halves fitted together, gauge length {1}', 'mitades juntas, longitud entre marcas {1}'],
  [
    'The final gauge length is measured, but the original one is not given; enter the gauge length that was marked.',
    'La longitud final está medida, pero falta la inicial; anote la longitud que se marcó.',
  ],
  [
    'The elongation is under 5 %: ISO 6892-1 asks for special care in measuring it, ASTM E8/E8M for a separate method at 3 % and below (from memory).',
    'El alargamiento es menor del 5 %: ISO 6892-1 pide medirlo con especial cuidado; ASTM E8/E8M, un método aparte al 3 % o menos (de memoria).',
  ],
  [
    "Where it broke between the marks is not recorded, so it can't be said whether the elongation counts; measure from the fracture to the nearer mark.",
    'No consta dónde rompió entre las marcas, así que no se puede decir si cuenta el alargamiento; mida de la rotura a la marca más próxima.',
  ],
  ['ISO 6892-1 and ASTM E8/E8M (from memory)', 'ISO 6892-1 y ASTM E8/E8M (de memoria)'],
  ['quotient of the unrounded values', 'cociente de los valores sin redondear'],
  ['S0, unrounded', 'S0, sin redondear'],
  ['Su, unrounded', 'Su, sin redondear'],
  [
    'textbook relations for uniform strain and constant volume',
    'relaciones de libro para deformación uniforme y volumen constante',
  ],
  [
    'from the engineering values, valid up to the maximum force',
    'de los valores nominales, válido hasta la fuerza máxima',
  ],
  [
    'from the engineering strain, valid up to the maximum force',
    'de la deformación nominal, válido hasta la fuerza máxima',
  ],
  ['area under the {1} curve by straight segments', 'área bajo la curva {1} por tramos rectos'],
  [
    'handbook definition; no acceptance value in weld codes',
    'definición de manual; sin valor de aceptación en los códigos de soldadura',
  ],
  ['ISO 10275 and ASTM E646 (from memory)', 'ISO 10275 y ASTM E646 (de memoria)'],
  [
    'force over original section, ISO 6892-1 (from memory)',
    'fuerza entre sección inicial, ISO 6892-1 (de memoria)',
  ],

  // The slope of the elastic part.
  ['Not fit for a modulus of elasticity: {1}.', 'No vale como módulo de elasticidad: {1}.'],
  ['R² is {1} (above {2} wanted)', 'R² es {1} (se pide más de {2})'],
  ['strain is {1}', 'la deformación viene {1}'],
  [
    'from crosshead travel, not a gauge-length strain',
    'del recorrido del travesaño, no de la longitud entre marcas',
  ],
  ['the line rests on {1} readings ({2} wanted)', 'la recta se apoya en {1} lecturas (se piden {2})'],
  [
    'the slope is uncertain by {1} % ({2} % wanted)',
    'la pendiente tiene una incertidumbre del {1} % (se pide {2} %)',
  ],
  ['the slopes of its two halves differ by {1} %', 'las pendientes de sus dos mitades difieren un {1} %'],
  [
    'the toe (take-up of the grips) reaches over the whole elastic part, no straight window is left',
    'el pie (asiento de las mordazas) ocupa toda la parte elástica; no queda tramo recto',
  ],
  [
    'the toe (take-up of the grips) reaches over much of the elastic part, only {1} to {2} MPa are left for the line',
    'el pie (asiento de las mordazas) ocupa gran parte de la parte elástica; solo quedan de {1} a {2} MPa para la recta',
  ],
  ['least squares of stress on strain', 'mínimos cuadrados de la tensión sobre la deformación'],
  [
    'line with the noise of both channels taken into account (Deming)',
    'recta que tiene en cuenta el ruido de ambos canales (Deming)',
  ],
  [
    'median of the slopes of all pairs of readings',
    'mediana de las pendientes de todos los pares de lecturas',
  ],
  ['reference stress of the window: {1} MPa', 'tensión de referencia de la ventana: {1} MPa'],
  [
    'scatter about the line, readings that follow one another not taken as independent',
    'dispersión en torno a la recta, sin tomar por independientes las lecturas consecutivas',
  ],
  ['scatter about the line', 'dispersión en torno a la recta'],
  ['mE = {1} MPa, u = {2} MPa from scatter alone', 'mE = {1} MPa, u = {2} MPa solo por la dispersión'],
  [
    'ISO 6892-1, slope of the elastic part (window and criteria from memory); a modulus proper is ASTM E111',
    'ISO 6892-1, pendiente de la parte elástica (ventana y criterios de memoria); un módulo en rigor es ASTM E111',
  ],
  [
    'The slope of the elastic part, {1}, is no modulus of any metal that shops weld ({2}; handbook values, from memory): a scale, a unit or the gauge length may be wrong by a factor, and with it every value that rests on the extension.',
    'La pendiente de la parte elástica, {1}, no es el módulo de ningún metal que se suelde en taller ({2}; valores de manual, de memoria): una escala, una unidad o la longitud entre marcas puede estar mal por un factor, y con ella todo valor que dependa de la extensión.',
  ],

  // The uncertainty.
  [
    'force-measuring system, class {1} of ISO 7500-1{2}',
    'sistema de medida de fuerza, clase {1} de ISO 7500-1{2}',
  ],
  [
    ' (assumed: ISO 6892-1 asks for class 1, ASTM E4 for ±1 %)',
    ' (supuesta: ISO 6892-1 pide clase 1, ASTM E4 ±1 %)',
  ],
  [
    'force-measuring system, {1} % (k = 2) from its certificate',
    'sistema de medida de fuerza, {1} % (k = 2) por su certificado',
  ],
  ['step of the force readout', 'escalón del indicador de fuerza'],
  ['{1}: spread of {2} measurements', '{1}: dispersión de {2} mediciones'],
  ['{1}: step of the display{2}', '{1}: escalón del indicador{2}'],
  [', from the digits typed', ', por las cifras escritas'],
  [
    'measuring instrument, no certificate given: taken as within one step of its display{1}',
    'instrumento de medida sin certificado: se toma dentro de un escalón de su indicador{1}',
  ],
  [
    'measuring instrument, from its certificate (k = 2){1}',
    'instrumento de medida, por su certificado (k = 2){1}',
  ],
  ['the same error in every length measured with it', 'el mismo error en toda longitud medida con él'],
  ['extensometer, class {1} of ISO 9513{2}', 'extensómetro, clase {1} de ISO 9513{2}'],
  [' (assumed: ISO 6892-1 asks for class 1)', ' (supuesta: ISO 6892-1 pide clase 1)'],
  ['slope of the elastic part, {1} readings', 'pendiente de la parte elástica, {1} lecturas'],
  [
    'slope of the elastic part, {1} readings, by the foot of its line',
    'pendiente de la parte elástica, {1} lecturas, por el pie de su recta',
  ],
  [
    'scatter of the readings where the offset line meets the curve, {1} readings',
    'dispersión de las lecturas donde la recta desplazada corta la curva, {1} lecturas',
  ],
  [
    'scatter of the readings about that extension, {1} readings',
    'dispersión de las lecturas en torno a esa extensión, {1} lecturas',
  ],
  ['scatter about the line, {1} readings', 'dispersión en torno a la recta, {1} lecturas'],
  ['width', 'ancho'],
  ['thickness', 'espesor'],
  ['diameter', 'diámetro'],
  ['gauge length', 'longitud entre marcas'],
  [
    'Noise lifts the largest reading: with a standard deviation of {1} MPa (scatter in the elastic part) and {2} readings near the maximum, it is likely high by about {3} MPa ({4} %); the value is not changed for it.',
    'El ruido sube la lectura mayor: con una desviación típica de {1} MPa (dispersión en la parte elástica) y {2} lecturas cerca del máximo, es probable que sobren unos {3} MPa ({4} %); el valor no se cambia por ello.',
  ],

  // Resolution of instruments.
  ['{1} asks for {2} on a {3} of {4}', '{1} pide {2} en {3} de {4}'],
  ['{1} asks for {2} on an {3} of {4}', '{1} pide {2} en {3} de {4}'],
  ['{1} % of the size', '{1} % de la medida'],
  ['{1}; the instrument shows {2}: fine enough.', '{1}; el instrumento muestra {2}: basta.'],
  [
    '{1}; the instrument shows {2}: too coarse, measure with a finer one.',
    '{1}; el instrumento muestra {2}: demasiado basto, mida con otro más fino.',
  ],
  [
    '{1}; the step of the instrument is not known, give instrumentResolution with the specimen.',
    '{1}; no se conoce el escalón del instrumento, indíquelo con la probeta.',
  ],
  ['ASTM E8/E8M 7.2.1 (from memory)', 'ASTM E8/E8M 7.2.1 (de memoria)'],
  [
    'ISO 6892-1, clause on the original section (from memory)',
    'ISO 6892-1, apartado sobre la sección inicial (de memoria)',
  ],

  // Testing speed.
  ['method A, stress rate', 'método A, velocidad de tensión'],
  ['method A, through yield', 'método A, durante la fluencia'],
  ['method A, to maximum force', 'método A, hasta la fuerza máxima'],
  ['method B, strain rate', 'método B, velocidad de deformación'],
  ['method B, through yield', 'método B, durante la fluencia'],
  ['method B, to maximum force', 'método B, hasta la fuerza máxima'],
  [
    'method B, elastic part, modulus of 150 GPa and over',
    'método B, parte elástica, módulo de 150 GPa o más',
  ],
  ['method B, elastic part, modulus under 150 GPa', 'método B, parte elástica, módulo menor de 150 GPa'],
  ['method C, crosshead over reduced section', 'método C, travesaño sobre la sección reducida'],
  ['after yield, for tensile strength', 'tras la fluencia, para la resistencia a la tracción'],
  ['test laboratory summary of ASTM E8/E8M', 'resumen de un laboratorio sobre ASTM E8/E8M'],
  ['ASTM E8/E8M (from memory)', 'ASTM E8/E8M (de memoria)'],
  ['ISO 6892-1 (from memory)', 'ISO 6892-1 (de memoria)'],
  ['ISO 6892-1 by a published procedure', 'ISO 6892-1 según un procedimiento publicado'],
  [
    'ISO 6892-1 (range 2 from a published procedure, range 1 from memory)',
    'ISO 6892-1 (intervalo 2 de un procedimiento publicado, intervalo 1 de memoria)',
  ],
  ['ISO 6892-1 (ranges 3 and 4 from memory)', 'ISO 6892-1 (intervalos 3 y 4 de memoria)'],
  ['{1} in {2}, allowed {3}.', '{1} en {2}, se permite {3}.'],
  [
    '{1} in {2}, too fast by {3}; allowed {4}, nearest {5}.',
    '{1} en {2}, demasiado rápido por {3}; se permite {4}; lo más próximo, {5}.',
  ],
  ['{1} in {2}, too fast by {3}; allowed {4}.', '{1} en {2}, demasiado rápido por {3}; se permite {4}.'],
  ['stress rate {1}', 'velocidad de tensión {1}'],
  ['strain rate {1}', 'velocidad de deformación {1}'],
  ['crosshead rate over the parallel length {1}', 'velocidad del travesaño sobre la longitud calibrada {1}'],
  ['the elastic part', 'la parte elástica'],
  ['the stretch through yield', 'el tramo de la fluencia'],
  ['the stretch from yield to the maximum force', 'el tramo de la fluencia a la fuerza máxima'],
  ['{1} (range {2}) or {3}', '{1} (intervalo {2}) o {3}'],
  ['{1} (range {2})', '{1} (intervalo {2})'],
  ['up to {1}', 'hasta {1}'],
  ['up to {1} 1/s', 'hasta {1} 1/s'],
  ['up to {1} MPa/s', 'hasta {1} MPa/s'],
  ['up to {1} psi/s', 'hasta {1} psi/s'],
  ['up to {1} ksi/s', 'hasta {1} ksi/s'],
  ['up to {1} psi/min', 'hasta {1} psi/min'],
  ['up to {1} ksi/min', 'hasta {1} ksi/min'],
  ['{1} to {2} psi/min', 'de {1} a {2} psi/min'],
  ['{1} to {2} ksi/min', 'de {1} a {2} ksi/min'],
  ['{1} to {2} 1/s', 'de {1} a {2} 1/s'],
  ['{1} to {2} MPa/s', 'de {1} a {2} MPa/s'],
  ['{1} to {2} psi/s', 'de {1} a {2} psi/s'],
  ['{1} to {2} ksi/s', 'de {1} a {2} ksi/s'],
  [
    '{1} has fewer than {2} readings or no time between them.',
    '{1} tiene menos de {2} lecturas o no hay tiempo entre ellas.',
  ],

  // What an evaluation departs in from the plain way.
  [
    'Strain is measured from the zero of the record; the toe is not compensated.',
    'La deformación se mide desde el cero del registro; el pie no se compensa.',
  ],
  [
    'Travel is corrected for frame and grips by a blank run of {1} points.',
    'El recorrido se corrige por máquina y mordazas con un ensayo en vacío de {1} puntos.',
  ],
  [
    'The lines of the record are read by the readout profile {1}.',
    'Las líneas del registro se leen con el perfil de lectura {1}.',
  ],
  [
    'This pull is judged by {1}; its set goes on being judged by its own rules.',
    'Este ensayo se juzga según {1}; su conjunto se sigue juzgando según sus propias reglas.',
  ],
  ['Proof strength at an offset of {1}.', 'Límite elástico convencional al {1}.'],
  [
    'Strength at a total extension of {1} under load.',
    'Límite elástico a una extensión total del {1} bajo carga.',
  ],
  [
    'The elastic slope is taken from the unloading loop.',
    'La pendiente elástica se toma del bucle de descarga.',
  ],
  [
    'The elastic slope is fitted by hand between the stresses {1}.',
    'La pendiente elástica se ajusta a mano entre las tensiones {1}.',
  ],
  [
    'Reading no. {1} is taken as the last one before the break.',
    'La lectura n.º {1} se toma como la última antes de la rotura.',
  ],
  [
    'Strain is taken from crosshead travel, which is no gauge-length strain.',
    'La deformación se toma del recorrido del travesaño, que no es la de la longitud entre marcas.',
  ],
  ['Area of a strip cut from pipe by the {1}.', 'Área de una tira cortada de tubo por la {1}.'],
  ['simplified arc form', 'forma de arco simplificada'],
  ['Reported values are rounded by {1}.', 'Los valores informados se redondean según {1}.'],
  [
    'An elongation of at least {1}, which the product demands, counts wherever it broke.',
    'Un alargamiento de al menos {1}, que pide el producto, cuenta rompa donde rompa.',
  ],
  [
    'Elongation is also converted to another gauge length: {1}.',
    'El alargamiento se convierte además a otra longitud entre marcas: {1}.',
  ],
  [
    'Force-measuring system of class {1} (ISO 7500-1).',
    'Sistema de medida de fuerza de clase {1} (ISO 7500-1).',
  ],
  [
    'Force uncertain by {1} (k = 2) by its certificate.',
    'Fuerza con una incertidumbre del {1} (k = 2) según su certificado.',
  ],
  ['The readout of the force shows steps of {1}.', 'El indicador de la fuerza muestra escalones de {1}.'],
  ['Extensometer of class {1} (ISO 9513).', 'Extensómetro de clase {1} (ISO 9513).'],
  [
    'Strain hardening (n, K) over the plastic strains {1}.',
    'Endurecimiento por deformación (n, K) en las deformaciones plásticas {1}.',
  ],

  // What was said of the record and had no Spanish.
  [
    'The curve has crosshead travel but no extensometer; travel contains frame, grips and slack and is no gauge-length strain.',
    'La curva tiene recorrido del travesaño pero no extensómetro; el recorrido contiene máquina, mordazas y holgura, y no es la deformación de la longitud entre marcas.',
  ],
  [
    'Above about {1} MPa {2} % total extension is too small to mean yielding; a larger stated extension is usual (from memory).',
    'Por encima de unos {1} MPa una extensión total del {2} % es demasiado pequeña para significar fluencia; es usual declarar una mayor (de memoria).',
  ],

  // What a typed pull says.
  ['typed from the frame’s display', 'tecleado desde el indicador de la máquina'],
  [
    'The pull was typed from the frame’s display and has no curve; it needs recorded readings.',
    'El ensayo se tecleó desde el indicador de la máquina y no tiene curva; hacen falta lecturas registradas.',
  ],
  [
    'The loads were read from the frame’s display and typed by a person; no curve was recorded, so nothing can be checked against it.',
    'Las cargas las leyó y tecleó una persona desde el indicador de la máquina; no se registró curva, así que nada se puede contrastar con ella.',
  ],
  [
    'Only {1} specimens: the factor is large and the bound far below the smallest value.',
    'Solo {1} probetas: el factor es grande y el límite queda muy por debajo del valor menor.',
  ],
  [
    'All values are equal, so the bound is that value and says nothing about scatter.',
    'Todos los valores son iguales, así que el límite es ese valor y nada dice de la dispersión.',
  ],
  [
    'The bound lies below zero: the normal distribution does not fit so few or so scattered values.',
    'El límite queda por debajo de cero: la distribución normal no se ajusta a valores tan pocos o tan dispersos.',
  ],
  [
    'The yield load was seen on the display, not found on a curve: it is as good as the eye that saw the load stand still.',
    'La carga de fluencia se vio en el indicador, no en una curva: vale lo que el ojo que vio detenerse la carga.',
  ],
];
