/**
 * What is found on records that do not go as they should, and why a value is withheld then: English forms with their
 * Spanish, as in `sentences.ts`. Clauses are put into the sentences and have forms of their own.
 */
export const ES_AWKWARD_RECORD_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  // What became of the extension.
  [
    'the extension went back by {1} while the specimen still carried load after reading {2} (at {3})',
    'la extensión retrocedió un {1} con la probeta aún bajo carga, tras la lectura {2} (al {3})',
  ],
  [
    'the extension jumped by {1} after reading {2} (at {3})',
    'la extensión saltó un {1} tras la lectura {2} (al {3})',
  ],
  [
    'the extension gave no more readings after reading {1} (at {2})',
    'la extensión no dio más lecturas tras la lectura {1} (al {2})',
  ],
  [
    'the extension stayed at {1} from reading {2} on (end of its travel, or taken off)',
    'la extensión se quedó en el {1} desde la lectura {2} (fin de su carrera, o extensómetro retirado)',
  ],
  ['{1}; extension counts only up to there.', '{1}; la extensión solo cuenta hasta ahí.'],
  [
    'Before {1}, {2}; the extension after that doesn’t count.',
    'Antes de {1}, {2}; la extensión posterior no cuenta.',
  ],
  ['the break', 'la rotura'],
  ['the maximum force', 'la fuerza máxima'],
  ['Before the offset was reached, {1}.', 'Antes de llegar a la paralela, {1}.'],
  [
    'Before the offset was reached (largest {1} %), {2}.',
    'Antes de llegar a la paralela (lo mayor, {1} %), {2}.',
  ],
  ['Before {1} % was reached, {2}.', 'Antes de llegar al {1} %, {2}.'],
  ['Before {1} % was reached (largest {2} %), {3}.', 'Antes de llegar al {1} % (lo mayor, {2} %), {3}.'],
  [
    'The extension {1}: probably a slip of the extensometer; look at its knife edges. {2}',
    'La extensión {1}: probablemente resbaló el extensómetro; revise sus cuchillas. {2}',
  ],
  ['The extension {1}; that is contained here.', 'La extensión {1}; eso está contenido aquí.'],
  [
    'Before it, the extension {1}; without that the curve doesn’t reach it.',
    'Antes, la extensión {1}; sin eso la curva no lo alcanza.',
  ],
  [
    'Before it, the extension {1}: as recorded it would be {2} MPa, with the step taken off {3} MPa, and neither is sure. A pull with the extensometer firmly set would give it.',
    'Antes, la extensión {1}: como se registró serían {2} MPa, sin el salto {3} MPa, y ninguno es seguro. Lo daría un ensayo con el extensómetro bien sujeto.',
  ],
  [
    'Before it, the extension {1}; taken off, the value would be {2} MPa.',
    'Antes, la extensión {1}; sin eso, el valor serían {2} MPa.',
  ],
  [
    'In the elastic part the extension {1}, and what is left on either side is too short for a line.',
    'En la parte elástica la extensión {1}, y lo que queda a cada lado es demasiado corto para una recta.',
  ],
  [
    'grew by {1} % more than the force explains between reading {2} and reading {3}, after which the curve is as steep as the elastic line again',
    'creció un {1} % más de lo que explica la fuerza entre la lectura {2} y la lectura {3}, tras lo cual la curva vuelve a ser tan empinada como la recta elástica',
  ],
  [
    'jumped by {1} % after reading {2} without the force that this would take',
    'saltó un {1} % tras la lectura {2} sin la fuerza que eso pediría',
  ],
  [
    'slipped back by {1} % after reading {2} without the force that this would take',
    'retrocedió un {1} % tras la lectura {2} sin la fuerza que eso pediría',
  ],
  [
    'jumped by {1} % in all in {2} steps, the first after reading {3}, without the force that this would take',
    'saltó un {1} % en total en {2} escalones, el primero tras la lectura {3}, sin la fuerza que eso pediría',
  ],
  [
    'slipped back by {1} % in all in {2} steps, the first after reading {3}, without the force that this would take',
    'retrocedió un {1} % en total en {2} escalones, el primero tras la lectura {3}, sin la fuerza que eso pediría',
  ],
  ['did not jump', 'no saltó'],
  [
    '1 single reading of the extension far from both neighbours ({1}) is passed over.',
    'Se pasa por alto una lectura suelta de la extensión, lejos de sus dos vecinas ({1}).',
  ],
  [
    '{1} single readings of the extension far from both neighbours ({2}) are passed over.',
    'Se pasan por alto {1} lecturas sueltas de la extensión, lejos de sus dos vecinas ({2}).',
  ],
  ['{1} and more', '{1} y más'],

  // What became of the load.
  [
    'the load steps by {1} MPa about reading {2} and goes on as before, while the extension shows nothing of it',
    'la carga da un salto de {1} MPa en torno a la lectura {2} y sigue como antes, sin que la extensión lo muestre',
  ],
  [
    'the load steps by {1} MPa after reading {2} and goes on as before, while the extension shows nothing of it',
    'la carga da un salto de {1} MPa tras la lectura {2} y sigue como antes, sin que la extensión lo muestre',
  ],
  [
    'the load steps by {1} MPa after reading {2} while the extension does not',
    'la carga da un salto de {1} MPa tras la lectura {2} y la extensión no',
  ],
  [
    'the load stands still at {1} MPa from reading {2} to {3}, equal to the last digit while the extension goes on',
    'la carga se queda en {1} MPa de la lectura {2} a la {3}, igual hasta la última cifra mientras la extensión sigue',
  ],
  ['Before it or there, {1}.', 'Antes o ahí mismo, {1}.'],
  [
    '{1}: look at the readout and its range; what was read there is withheld or says so.',
    '{1}: revise el indicador y su alcance; lo que se leyó ahí no se da, o lo dice.',
  ],
  [
    '{1}, so this is not the strength of the specimen for sure.',
    '{1}, así que no es seguro que esta sea la resistencia de la probeta.',
  ],
  [
    'At its largest, {1}, so the maximum force is not known.',
    'En lo mayor, {1}, así que no se conoce la fuerza máxima.',
  ],
  ['At its largest, {1}.', 'En lo mayor, {1}.'],
  [
    'A reading stands alone far above the neighbours ({1}) and is not taken for the maximum; the largest of the others is {2}.',
    'Una lectura está sola muy por encima de sus vecinas ({1}) y no se toma por el máximo; la mayor de las demás es {2}.',
  ],
  [
    '{1} readings stand alone far above the neighbours ({2}) and are not taken for the maximum; the largest of the others is {3}.',
    '{1} lecturas están solas muy por encima de sus vecinas ({2}) y no se toman por el máximo; la mayor de las demás es {3}.',
  ],
  [
    'From reading {1} on the load is {2} times what it was, as if the readout had been switched from {3} to {4}, while everything goes on as before',
    'Desde la lectura {1} la carga es {2} veces la de antes, como si el indicador se hubiera pasado de {3} a {4}, mientras todo sigue igual',
  ],
  [
    '{1}: is the mark before it a break at all? Nothing after it is evaluated.',
    '{1}: ¿es una rotura la marca anterior? No se evalúa nada posterior.',
  ],
  [
    '{1}. Which of the two scales is right is not in the record; to evaluate what came before, mark the end at reading {2}, and check that its unit is the profile’s.',
    '{1}. Cuál de las dos escalas es la buena no está en el registro; para evaluar lo anterior, marque el fin en la lectura {2} y compruebe que su unidad es la del perfil.',
  ],
  [
    'After the marked break the load goes on in another unit, so the pull probably went on and a larger force may have followed.',
    'Tras la rotura marcada la carga sigue en otra unidad, así que el ensayo probablemente continuó y pudo venir una fuerza mayor.',
  ],
  [
    'After the maximum the force falls by only {1} % before the record stops, so a larger force may have followed.',
    'Tras el máximo la fuerza cae solo un {1} % antes de que termine el registro, así que pudo venir una fuerza mayor.',
  ],
  [
    'After the break at reading {1} the extension goes on and the load moves between {2} and {3}, as it does on no broken specimen: the load may have been set to zero, or its sign or unit changed, during the pull.',
    'Tras la rotura en la lectura {1} la extensión sigue y la carga se mueve entre {2} y {3}, como en ninguna probeta rota: puede que durante el ensayo se pusiera a cero la carga, o cambiara su signo o su unidad.',
  ],
  [
    'Before the pull the load stands at {1} up to reading {2} while nothing is pulled: a zero that was not set, or a preload. If it is the zero, every load and strength here contains it; the force zero among the corrections takes it off.',
    'Antes del ensayo la carga está en {1} hasta la lectura {2} sin que se tire de nada: un cero sin poner, o una precarga. Si es el cero, toda carga y resistencia de aquí lo contiene; el cero de la carga, entre las correcciones, lo quita.',
  ],
  [
    'The load stands at {1} before the pull and at {2} after the break: its zero has drifted by {3}, or the halves still hang together; no single zero corrects that.',
    'La carga está en {1} antes del ensayo y en {2} tras la rotura: su cero derivó {3}, o las mitades aún cuelgan juntas; un solo cero no lo corrige.',
  ],
  [
    'After the break the load rests at {1} ({2} % of the maximum): the zero is off by that, or the halves still hang together; every load here contains it.',
    'Tras la rotura la carga queda en {1} ({2} % del máximo): el cero se desvía en eso, o las mitades aún cuelgan juntas; toda carga de aquí lo contiene.',
  ],
  ['{1} ({2} % of the maximum)', '{1} ({2} % del máximo)'],
  ['The curve has no readings of force.', 'La curva no tiene lecturas de fuerza.'],
  ['The curve has no stress.', 'La curva no tiene tensión.'],
  ['No peak was shown.', 'No se mostró ningún máximo.'],
  [
    'The load goes to {1} and no further than {2} in tension: compression, or the sign of the channel is reversed; set the sign in the readout profile.',
    'La carga llega a {1} y a no más de {2} en tracción: compresión, o el signo del canal está invertido; fije el signo en el perfil de lectura.',
  ],
  [
    '{1} over the whole record, so nothing was pulled in it; check the channel, or open the record of the pull itself.',
    '{1} en todo el registro, así que en él no se ensayó nada; revise el canal o abra el registro del ensayo mismo.',
  ],
  ['The load stays at {1}', 'La carga se queda en {1}'],
  ['The load stays between {1} and {2}', 'La carga se queda entre {1} y {2}'],
  [
    'Fewer than two readings have both load and extension.',
    'Menos de dos lecturas tienen carga y extensión a la vez.',
  ],
  [
    'The readings lead to no finite value; look at the record for impossible readings.',
    'Las lecturas no llevan a ningún valor finito; busque lecturas imposibles en el registro.',
  ],

  // The elastic line.
  [
    'The elastic part is bent or has few readings: the line through its lower half would give {1}, through its upper half {2}.',
    'La parte elástica está curvada o tiene pocas lecturas: la recta por su mitad inferior daría {1}, por la superior {2}.',
  ],
  ['none before the record ends', 'ninguno antes de que termine el registro'],
  [
    'The slope was asked for from an unloading loop, and the loading has none in which load and extension went back by half or more and came again; take it from the loading, or unload to about a tenth during the pull.',
    'La pendiente se pidió de un ciclo de descarga, y la carga no tiene ninguno en el que carga y extensión retrocedieran la mitad o más y volvieran; tómela de la subida, o descargue hasta un décimo durante el ensayo.',
  ],
  [
    'The loading has no straight rising part with at least two different strains, so there is no elastic line.',
    'La carga no tiene ningún tramo recto ascendente con al menos dos deformaciones distintas, así que no hay recta elástica.',
  ],
  [
    'Between {1} and {2} MPa there is no rising part to fit a line to; set the window anew.',
    'Entre {1} y {2} MPa no hay tramo ascendente al que ajustar una recta; ponga otra ventana.',
  ],
  [
    'The {1} readings of the elastic part leave its slope uncertain by {2} %, too much for a line; more readings, or less noise, in the elastic part would give one.',
    'Las {1} lecturas de la parte elástica dejan su pendiente incierta en un {2} %, demasiado para una recta; la darían más lecturas, o menos ruido, en la parte elástica.',
  ],
  [
    'The slope of the elastic part comes out as {1} GPa, which no metal has ({2} to {3} GPa); check the units of force and extension, the gauge length, the area, and whether the extension is from the gauge length at all.',
    'La pendiente de la parte elástica sale de {1} GPa, que ningún metal tiene (de {2} a {3} GPa); revise las unidades de fuerza y extensión, la longitud entre marcas, el área, y si la extensión es siquiera de la longitud entre marcas.',
  ],
  [
    'The slope of the elastic part is one that no metal has: one of the units, the area or the gauge length is probably wrong; check before using this value.',
    'La pendiente de la parte elástica no es la de ningún metal: probablemente sea errónea una unidad, el área o la longitud entre marcas; compruébelo antes de usar este valor.',
  ],
  [
    'The elastic line is taken from the readings after a step of the extension (see the remark on the record).',
    'La recta elástica se toma de las lecturas posteriores a un salto de la extensión (vea la observación sobre el registro).',
  ],
  [
    'Unloading loop from reading {1} down to reading {2} and back at reading {3}; the slope is that of the line through both branches.',
    'Ciclo de descarga desde la lectura {1} hasta la lectura {2} y de vuelta en la lectura {3}; la pendiente es la de la recta por ambas ramas.',
  ],
  [
    'The corrected origin e0 is where a parallel to that line meets zero stress which touches the loading at readings {1} to {2}.',
    'El origen corregido e0 es donde llega a tensión cero una paralela a esa recta que toca la carga en las lecturas {1} a {2}.',
  ],
  [
    'through both branches of the unloading loop (ISO 6892-1, from memory)',
    'por ambas ramas del ciclo de descarga (ISO 6892-1, de memoria)',
  ],
  [
    'slope of the unloading loop, origin where its parallel touches the loading',
    'pendiente del ciclo de descarga, origen donde su paralela toca la carga',
  ],

  // Yield and proof strengths.
  [
    'The line is crossed between two readings far apart ({1} and {2} MPa), so the value in between is interpolated over what was not recorded.',
    'La recta se cruza entre dos lecturas muy separadas ({1} y {2} MPa), así que el valor intermedio se interpola sobre lo que no se registró.',
  ],
  [
    'It lies between readings {1} ({2} MPa) and {3} ({4} MPa), too far apart to tell; more readings at the start of yielding would give it.',
    'Queda entre las lecturas {1} ({2} MPa) y {3} ({4} MPa), demasiado separadas para decirlo; lo darían más lecturas al comienzo de la fluencia.',
  ],
  [
    'The record stops before the plastic extension reaches the offset.',
    'El registro termina antes de que la extensión plástica llegue a la paralela.',
  ],
  [
    'The record stops before the plastic extension reaches the offset (largest {1} %).',
    'El registro termina antes de que la extensión plástica llegue a la paralela (lo mayor, {1} %).',
  ],
  [
    'The specimen broke before the plastic extension reached the offset.',
    'La probeta rompió antes de que la extensión plástica llegara a la paralela.',
  ],
  [
    'The specimen broke before the plastic extension reached the offset (largest {1} %).',
    'La probeta rompió antes de que la extensión plástica llegara a la paralela (lo mayor, {1} %).',
  ],
  [
    "The extension doesn't reach {1} % before the break.",
    'La extensión no llega al {1} % antes de la rotura.',
  ],
  [
    "The extension doesn't reach {1} % before the break (largest {2} %).",
    'La extensión no llega al {1} % antes de la rotura (lo mayor, {2} %).',
  ],
  [
    "The extension doesn't reach {1} % before the record stops.",
    'La extensión no llega al {1} % antes de que termine el registro.',
  ],
  [
    "The extension doesn't reach {1} % before the record stops (largest {2} %).",
    'La extensión no llega al {1} % antes de que termine el registro (lo mayor, {2} %).',
  ],
  [
    'The record begins beyond {1} % of extension, at reading {2}; look at the zero of the extension and the order of the readings.',
    'El registro empieza por encima del {1} % de extensión, en la lectura {2}; revise el cero de la extensión y el orden de las lecturas.',
  ],
  [
    'The force shows in steps of {1} MPa, so where yielding passes into hardening is no sharper than the hardening of one step.',
    'La fuerza va en escalones de {1} MPa, así que el paso de la fluencia al endurecimiento no es más preciso que lo que endurece un escalón.',
  ],
  [
    'The force scatters by {1} MPa, so where yielding passes into hardening is no sharper than that leaves it.',
    'La fuerza se dispersa {1} MPa, así que el paso de la fluencia al endurecimiento no es más preciso de lo que eso permite.',
  ],
  [
    'The record shows no start of uniform work hardening after the yield point, so the end of yielding is not known.',
    'El registro no muestra el comienzo de un endurecimiento uniforme tras el punto de fluencia, así que no se conoce el fin de la fluencia.',
  ],
  [
    'Yielding passes into hardening too soon after the upper yield to measure an extension between them.',
    'La fluencia pasa a endurecimiento demasiado pronto tras el límite superior para medir una extensión entre ambos.',
  ],
  ['the largest fall is {1} %', 'la mayor caída es del {1} %'],
  [' ({1} %, end of the yield point extension)', ' ({1} %, fin de la extensión en el escalón de fluencia)'],
  ['The stress would be {1} MPa', 'La tensión sería de {1} MPa'],
  ['mean of {1} readings (the record is noisy)', 'media de {1} lecturas (el registro tiene ruido)'],
  [
    'Fewer than {1} different strains lie between {2} % and {3} %.',
    'Hay menos de {1} deformaciones distintas entre el {2} % y el {3} %.',
  ],

  // Extensions at the maximum and at the break.
  ['The elastic part can’t be taken off. {1}', 'No se puede descontar la parte elástica. {1}'],
  [
    'With the elastic part taken off, {1} % would be left, which no specimen does; the elastic line or the extension is off by more than the plastic part.',
    'Descontada la parte elástica quedaría un {1} %, lo que no da ninguna probeta; la recta elástica o la extensión se desvía más que la parte plástica.',
  ],
  [
    'No plastic extension is left above what the elastic line is sure to; given as zero.',
    'No queda extensión plástica por encima de lo que la recta elástica asegura; se da como cero.',
  ],
  [
    'No plastic extension is left above what the elastic line is sure to ({1} %); given as zero.',
    'No queda extensión plástica por encima de lo que la recta elástica asegura ({1} %); se da como cero.',
  ],
  [
    'the vertex of a parabola through all readings about the largest force (the record is noisy)',
    'el vértice de una parábola por todas las lecturas en torno a la fuerza mayor (el registro tiene ruido)',
  ],
  [
    'With {1} intervals and {2} between X and Y, one length from Y (to Z) is needed; measure again.',
    'Con {1} intervalos y {2} entre X e Y hace falta una longitud desde Y (hasta Z); mida de nuevo.',
  ],
  [
    'With {1} intervals and {2} between X and Y, two lengths from Y (to Z′ and Z″) are needed; measure again.',
    'Con {1} intervalos y {2} entre X e Y hacen falta dos longitudes desde Y (hasta Z′ y Z″); mida de nuevo.',
  ],
  [
    'ISO 6892-1 and IS 1608:2005 clause 11 (original gauge length); ASTM E8/E8M and B557-02a 7.8 in the same terms',
    'ISO 6892-1 e IS 1608:2005, apartado 11 (longitud inicial entre marcas); ASTM E8/E8M y B557-02a 7.8 en los mismos términos',
  ],

  // What was typed, given or asked for.
  [
    'yield strength from the load at which the display stood still',
    'límite elástico por la carga en la que el indicador se detuvo',
  ],
  [
    'An elongation of {1} was typed too; A is taken from what was measured after the break.',
    'También se tecleó un alargamiento de {1}; A se toma de lo medido tras la rotura.',
  ],
  [
    'The section could not be worked out, so there is no strength.',
    'No se pudo calcular la sección, así que no hay resistencia.',
  ],
  ['Typed, not worked out from the refitted halves.', 'Tecleado, no calculado con las mitades juntas.'],
  [
    'The break is marked at reading {1}, and the record has {2} readings; the mark is left out.',
    'La rotura está marcada en la lectura {1} y el registro tiene {2} lecturas; la marca se omite.',
  ],
  [
    'The zero of the {1} is set to {2}, farther out than anything recorded ({3}); look for a wrong digit or unit in it, or leave the correction out.',
    'El cero ({1}) está puesto en {2}, más allá de todo lo registrado ({3}); busque en él una cifra o unidad errónea, u omita la corrección.',
  ],
  [
    'The curve has no readings of extension or strain; an extensometer on the specimen would give it.',
    'La curva no tiene lecturas de extensión ni de deformación; las daría un extensómetro en la probeta.',
  ],
  [
    'Travel needs a length to be divided by; give {1} or {2} with the specimen.',
    'El recorrido necesita una longitud entre la que dividirlo; dé {1} o {2} con la probeta.',
  ],
  ['strain column of the file', 'columna de deformación del fichero'],
  [
    'The {1} was asked for, but W/D = {2} is not below {3}, so the exact arc form is used.',
    'Se pidió {1}, pero W/D = {2} no es menor que {3}, así que se usa el arco exacto.',
  ],
  [
    'The {1} is allowed here by the limit {2} but not by {3}; W/D = {4}.',
    '{1}: aquí lo permite el límite {2}, pero no {3}; W/D = {4}.',
  ],
  [
    'A dimension was measured an even number of times, so the mean of its two middle measurements stands for the centre.',
    'Una dimensión se midió un número par de veces, así que la media de sus dos mediciones centrales vale por el centro.',
  ],
];
