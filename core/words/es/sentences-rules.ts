/** What the shipped rule packs say of themselves and of their rules: English forms with their Spanish. */
export const ES_RULE_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  // What is accepted, and what follows from it.
  [
    'When it breaks outside the weld and its interface, a strength up to 5 % under the base metal’s minimum is still accepted.',
    'Cuando rompe fuera de la soldadura y de su intercara, aún se acepta una resistencia hasta un 5 % por debajo del mínimo del metal base.',
  ],
  [
    'Alclad aluminium (P-No. 21 to 23): under 1/2 in thick the minimum is that of the full thickness with its cladding; from 1/2 in on it is asked of full-thickness specimens and of specimens from the core.',
    'Aluminio alclad (P-No. 21 a 23): con menos de 1/2 in de espesor, el mínimo es el del espesor completo con su revestimiento; desde 1/2 in se exige a probetas de espesor completo y a probetas del núcleo.',
  ],
  [
    'The minimum is the value printed for the material in the table, not the value of a mill certificate.',
    'El mínimo es el valor impreso para el material en la tabla, no el de un certificado de fábrica.',
  ],
  [
    'The lower end of the base metal’s specified tensile range must be reached.',
    'Hay que alcanzar el extremo inferior del intervalo de resistencia especificado del metal base.',
  ],
  [
    'Where it breaks is no criterion, and there is no allowance for a break in base metal.',
    'Dónde rompe no es un criterio, y no hay margen para una rotura en el metal base.',
  ],
  [
    'With different base metals the lower minimum governs.',
    'Con metales base distintos rige el mínimo más bajo.',
  ],
  [
    'The limit belongs to the base metal, not to the filler class.',
    'El límite es del metal base, no de la clase del aporte.',
  ],
  [
    'The reduced-section tensile strength is at least the welded minimum of the alloy.',
    'La resistencia a la tracción de la sección reducida alcanza al menos el mínimo de la aleación soldada.',
  ],
  [
    'Weld and heat-affected zone of aluminium are expected to be weaker than the plate; specifications state a minimum for the welded joint.',
    'En el aluminio se espera que la soldadura y la zona afectada térmicamente sean más débiles que la chapa; las especificaciones fijan un mínimo para la unión soldada.',
  ],
  [
    'The bar is the pipe’s specified minimum, however strong the pipe really is. Pipe that breaks must reach it; a weld or fusion zone that breaks must reach it and be sound.',
    'El listón es el mínimo especificado del tubo, por fuerte que sea en realidad. Si rompe el tubo, ha de alcanzarlo; si rompe la soldadura o la zona de fusión, ha de alcanzarlo y estar sana.',
  ],
  [
    'With different grades joined the lower specified minimum governs.',
    'Si se unen grados distintos rige el mínimo especificado más bajo.',
  ],
  [
    'A break outside the weld and fusion zone is accepted at 95 % of the specified minimum tensile strength or more; a break in the weld or fusion zone at the minimum or more with a sound fracture.',
    'Una rotura fuera de la soldadura y de la zona de fusión se acepta desde el 95 % de la resistencia mínima especificada; una en la soldadura o la zona de fusión, desde el mínimo y con rotura sana.',
  ],
  [
    'Rm reaches the parent metal’s specified minimum (for dissimilar joints the lower one), where nothing else was agreed before the test; tested to ISO 4136.',
    'Rm alcanza el mínimo especificado del metal base (en uniones disimilares, el menor), salvo que se acordara otra cosa antes del ensayo; ensayado según ISO 4136.',
  ],
  [
    'The tensile strength is not less than the specified minimum of the appropriate parent material; where the weld metal is weaker than the parent metal, the administration may require a minimum for the weld metal. The position of the fracture is reported for information.',
    'La resistencia a la tracción no es menor que el mínimo especificado del material base que corresponda; donde el metal de soldadura es más débil que el metal base, la administración puede exigir un mínimo para el metal de soldadura. La posición de la rotura se anota como información.',
  ],
  [
    'All-weld-metal tensile strength, yield strength and elongation as the table of the class states.',
    'Resistencia a la tracción, límite elástico y alargamiento del metal de soldadura como los fija la tabla de la clase.',
  ],
  [
    'Everything that the class specifies, after rounding.',
    'Todo lo que la clase especifica, tras redondear.',
  ],
  [
    'A specimen that breaks in the weld has failed, whatever its strength.',
    'Una probeta que rompe en la soldadura ha fallado, sea cual sea su resistencia.',
  ],
  [
    'A specimen that breaks elsewhere must reach the specified minimum of the base metal.',
    'Una probeta que rompe en otro sitio ha de alcanzar el mínimo especificado del metal base.',
  ],
  [
    'A break in the weld is a failure whatever the strength.',
    'Una rotura en la soldadura es un fallo, sea cual sea la resistencia.',
  ],
  ['A good weld breaks in the plate.', 'Una buena soldadura rompe en la chapa.'],
  ['Broke in the plate.', 'Rompió en la chapa.'],
  [
    'the paragraph says "the base metal": read as the metal that broke instead of the weaker one',
    'el párrafo dice "el metal base": leído como el metal que rompió en lugar del más débil',
  ],

  // How many specimens, and which replace a failed one.
  [
    'Two tension tests for each groove-weld procedure coupon.',
    'Dos ensayos de tracción por cada cupón de procedimiento de soldadura a tope.',
  ],
  [
    'Two tension specimens for each groove-weld procedure test, whatever the thickness.',
    'Dos probetas de tracción por cada prueba de procedimiento de soldadura a tope, sea cual sea el espesor.',
  ],
  [
    'Number of tensile specimens by outside diameter and wall.',
    'Número de probetas de tracción según el diámetro exterior y la pared.',
  ],
  [
    'Two transverse tensile specimens for a butt joint in plate or pipe.',
    'Dos probetas de tracción transversales para una unión a tope en chapa o tubo.',
  ],
  [
    'Where enough of the original coupon is left, further specimens may be taken as close as practicable to the failed ones.',
    'Donde queda bastante del cupón original, se pueden tomar más probetas lo más cerca posible de las que fallaron.',
  ],
  [
    'A further specimen in place of each failed one, as close to it as practicable; the page seen states no number.',
    'Una probeta más en lugar de cada una que falló, lo más cerca posible de ella; la página vista no fija el número.',
  ],
  [
    'For one failure two further specimens of its kind are cut from the same material, and both must pass; beyond 1-1/2 in thick the whole of that kind is tested again from two other places.',
    'Por un fallo se cortan dos probetas más de su tipo del mismo material, y ambas han de cumplir; por encima de 1-1/2 in de espesor se repite todo ese tipo en otros dos lugares.',
  ],
  [
    'Two more specimens for the one that failed; both must pass.',
    'Dos probetas más por la que falló; ambas han de cumplir.',
  ],
  [
    'A specimen that falls short sets the weld aside and asks for a new test weld; no replacement of single tensile specimens is stated.',
    'Una probeta que no llega descarta la soldadura y pide una nueva soldadura de prueba; no se prevé reemplazar probetas de tracción sueltas.',
  ],
  [
    'Two further specimens for each one that failed; both must pass.',
    'Dos probetas más por cada una que falló; ambas han de cumplir.',
  ],
  [
    'A failed test is repeated twice and both must pass; a test void for wrong procedure is repeated once.',
    'Un ensayo fallido se repite dos veces y ambas han de cumplir; un ensayo nulo por procedimiento erróneo se repite una vez.',
  ],
  [
    'Two further tests in place of the failed one; both must pass.',
    'Dos ensayos más en lugar del fallido; ambos han de cumplir.',
  ],

  // The specimen's form.
  [
    'The reduced section is nominally 3/4 in (19 mm) wide; wider is allowed.',
    'La sección reducida tiene 3/4 in (19 mm) de ancho nominal; más ancha se admite.',
  ],
  [
    'Pipe of 3 in (75 mm) outside diameter or less may be tested as a full section.',
    'El tubo de 3 in (75 mm) de diámetro exterior o menos se puede ensayar en sección completa.',
  ],
  [
    'Plate: no narrower than the nominal 3/4 in (19 mm). No tolerance is printed there; under 18 mm is doubted here.',
    'Chapa: no más estrecha que los 3/4 in (19 mm) nominales. Allí no se imprime ninguna tolerancia; por debajo de 18 mm se pone aquí en duda.',
  ],
  [
    'Pipe over 3 in (75 mm) outside diameter: the same. Smaller pipe has specimens of its own.',
    'Tubo de más de 3 in (75 mm) de diámetro exterior: lo mismo. El tubo menor tiene probetas propias.',
  ],
  [
    'Turned: one of four diameters; the largest that fits the thickness is meant.',
    'Torneada: uno de cuatro diámetros; se entiende el mayor que quepa en el espesor.',
  ],
  [
    'Full section: pipe of 3 in (75 mm) outside diameter or less.',
    'Sección completa: tubo de 3 in (75 mm) de diámetro exterior o menos.',
  ],
  [
    'Test plate to 1 in thick: 1-1/2 in wide; thicker plate: 1 in wide. Narrower only where the responsible engineer agrees.',
    'Chapa de prueba hasta 1 in de espesor: 1-1/2 in de ancho; más gruesa: 1 in de ancho. Más estrecha solo si el ingeniero responsable lo acepta.',
  ],
  [
    'Test plate to 1 in thick: 1-1/2 in (38 mm) wide; what is more than 5 % narrower is doubted here.',
    'Chapa de prueba hasta 1 in de espesor: 1-1/2 in (38 mm) de ancho; lo que es más de un 5 % más estrecho se pone aquí en duda.',
  ],
  [
    'Test plate over 1 in thick: 1 in (25 mm) wide; what is more than 5 % narrower is doubted here.',
    'Chapa de prueba de más de 1 in de espesor: 1 in (25 mm) de ancho; lo que es más de un 5 % más estrecho se pone aquí en duda.',
  ],
  ['The strap is about 1 in (25 mm) wide.', 'La tira tiene alrededor de 1 in (25 mm) de ancho.'],
  [
    'About 1 in (25 mm) wide; what is more than 20 % off is doubted here.',
    'Alrededor de 1 in (25 mm) de ancho; lo que se aparta más de un 20 % se pone aquí en duda.',
  ],
  [
    'Plate to 2 mm thick: 12 mm wide; what is more than 10 % narrower is doubted here.',
    'Chapa hasta 2 mm de espesor: 12 mm de ancho; lo que es más de un 10 % más estrecho se pone aquí en duda.',
  ],
  [
    'Plate over 2 mm thick: 25 mm wide; what is more than 10 % narrower is doubted here.',
    'Chapa de más de 2 mm de espesor: 25 mm de ancho; lo que es más de un 10 % más estrecho se pone aquí en duda.',
  ],
  [
    'Gauge length of four diameters; what is more than 5 % off is doubted here.',
    'Longitud entre marcas de cuatro diámetros; lo que se aparta más de un 5 % se pone aquí en duda.',
  ],
  [
    'Round, the gauge length four diameters, or five in the metric half of ASTM E8/E8M.',
    'Redonda, con longitud entre marcas de cuatro diámetros, o de cinco en la mitad métrica de ASTM E8/E8M.',
  ],
  [
    'Gauge length of four or five diameters; what is more than 5 % off is doubted here.',
    'Longitud entre marcas de cuatro o cinco diámetros; lo que se aparta más de un 5 % se pone aquí en duda.',
  ],
  [
    'The area must not include reinforcement that was left on.',
    'El área no debe incluir el sobreespesor que se haya dejado.',
  ],

  // How values are compared.
  [
    'No rounding rule is printed in the acceptance paragraphs seen, so the unrounded value is compared.',
    'En los párrafos de aceptación vistos no se imprime ninguna regla de redondeo, así que se compara el valor sin redondear.',
  ],
  [
    'The figures compared are those printed in MPa; a strength given in psi is converted to MPa.',
    'Se comparan las cifras impresas en MPa; una resistencia dada en psi se convierte a MPa.',
  ],
  [
    'No rounding before judging is applied; ISO 6892-1 rounds the reported strength to 1 MPa.',
    'No se redondea antes de juzgar; ISO 6892-1 redondea la resistencia comunicada a 1 MPa.',
  ],
  [
    'Tensile and yield strength are rounded to 1 ksi, other values to the last figure of the limit; a lone five goes to the even figure; units are converted before rounding; the rounded value is judged.',
    'La resistencia a la tracción y el límite elástico se redondean a 1 ksi, los demás valores a la última cifra del límite; un cinco solo va a la cifra par; las unidades se convierten antes de redondear; se juzga el valor redondeado.',
  ],
  [
    'Tensile and yield strength are rounded to 10 MPa, other values to the last figure of the limit; a lone five goes to the even figure; units are converted before rounding; the rounded value is judged.',
    'La resistencia a la tracción y el límite elástico se redondean a 10 MPa, los demás valores a la última cifra del límite; un cinco solo va a la cifra par; las unidades se convierten antes de redondear; se juzga el valor redondeado.',
  ],
  [
    'US customary and SI figures of the specification are separate systems; this pack uses the one in its name.',
    'Las cifras de la especificación en unidades de EE. UU. y en SI son sistemas aparte; este paquete usa el de su nombre.',
  ],

  // Readings of our own, and what a pack leaves out.
  [
    'Alclad aluminium from 1/2 in on (QW-153.1(e)): put full-thickness specimens and specimens from the core into the set, with the number of both required; each must reach the minimum. The tables hold no alclad alloy, so state its minimum.',
    'Aluminio alclad desde 1/2 in (QW-153.1(e)): ponga en el conjunto probetas de espesor completo y probetas del núcleo, con el número exigido de ambas; cada una ha de alcanzar el mínimo. Las tablas no contienen ninguna aleación alclad, así que anote su mínimo.',
  ],
  [
    'Our reading: the heat-affected zone is base metal outside the weld and the weld interface, so a break there has the 5 % allowance. The text seen does not name the zone.',
    'Nuestra lectura: la zona afectada térmicamente es metal base fuera de la soldadura y de su intercara, así que una rotura allí tiene el margen del 5 %. El texto visto no nombra esa zona.',
  ],
  [
    'Our reading: a break along the fusion line is a break at the weld interface and has no allowance.',
    'Nuestra lectura: una rotura a lo largo de la línea de fusión es una rotura en la intercara y no tiene margen.',
  ],
  [
    'With two base metals the 5 % is taken off the weaker minimum; whether the metal that broke is meant is not clear, so the other reading is shown too.',
    'Con dos metales base el 5 % se resta del mínimo más débil; no está claro si se refiere al metal que rompió, así que también se muestra la otra lectura.',
  ],
  [
    'A set of strips through the thickness counts as one test, and every strip must pass (QW-151).',
    'Un juego de tiras a través del espesor cuenta como un ensayo, y cada tira ha de cumplir (QW-151).',
  ],
  [
    'Our reading: the heat-affected zone outside the fusion zone is parent pipe. The text seen names the weld and the fusion zone on the one side and the parent pipe on the other.',
    'Nuestra lectura: la zona afectada térmicamente fuera de la zona de fusión es tubo base. El texto visto nombra la soldadura y la zona de fusión por un lado y el tubo base por el otro.',
  ],
  [
    'Our reading: a break along the fusion line is a break in the fusion zone, so it needs the full minimum and a sound fracture.',
    'Nuestra lectura: una rotura a lo largo de la línea de fusión es una rotura en la zona de fusión, así que necesita el mínimo entero y una rotura sana.',
  ],
  [
    'Yield, elongation and reduction of area across weld, heat-affected zone and base metal are for information only.',
    'El límite elástico, el alargamiento y la estricción a través de soldadura, zona afectada térmicamente y metal base son solo informativos.',
  ],
  [
    'A5.18-79 had a trade-off between strength and elongation that this pack does not use.',
    'A5.18-79 tenía una compensación entre resistencia y alargamiento que este paquete no usa.',
  ],
  [
    'This is what many shops and schools say. No code seen says it: under ASME IX, AWS D1.1 and ISO 15614-1 a weld-metal break at or above the minimum passes, under API 1104 if it is also sound.',
    'Es lo que dicen muchos talleres y escuelas. Ningún código visto lo dice: según ASME IX, AWS D1.1 e ISO 15614-1 una rotura en el metal de soldadura en el mínimo o por encima cumple; según API 1104, si además es sana.',
  ],
  [
    'No strength is asked for: compare with a code pack before anything depends on it.',
    'No se exige ninguna resistencia: compare con el paquete de un código antes de que algo dependa de ello.',
  ],

  // Specimens, and a broken face, with figures.
  [
    'The broken face shows full penetration and fusion. Pores: none over 1/16 in (1.6 mm), no more than 2 % of the face in all. Slag: no deeper than 1/32 in (0.8 mm), no longer than the smaller of 1/8 in (3 mm) and half the wall, and 1/2 in (13 mm) apart. Fisheyes don’t count.',
    'La cara rota muestra penetración y fusión completas. Poros: ninguno de más de 1/16 in (1.6 mm), en total no más de un 2 % de la cara. Escoria: con no más de 1/32 in (0.8 mm) de profundidad, no más larga que lo menor de 1/8 in (3 mm) y media pared, y a 1/2 in (13 mm) una de otra. Los ojos de pez no cuentan.',
  ],
  [
    'One tensile specimen of the full section in place of two nick-break and two bend specimens, for pipe of 1.315 in (33.4 mm) outside diameter or less.',
    'Una probeta de tracción de sección completa en lugar de dos de rotura con entalla y dos de doblado, para tubo de 1.315 in (33.4 mm) de diámetro exterior o menos.',
  ],
  [
    'Full section: pipe of 1.315 in (33.4 mm) outside diameter or less.',
    'Sección completa: tubo de 1.315 in (33.4 mm) de diámetro exterior o menos.',
  ],
  [
    'Turned specimens: 0.505, 0.353, 0.252 or 0.188 in diameter, the largest that fits.',
    'Probetas torneadas: 0.505, 0.353, 0.252 o 0.188 in de diámetro, la mayor que quepa.',
  ],
  [
    'Round, 0.500 in diameter on a gauge length of 2.000 in, or a smaller one of the same proportion (four diameters).',
    'Redonda, de 0.500 in de diámetro con longitud entre marcas de 2.000 in, o una menor de la misma proporción (cuatro diámetros).',
  ],
  [
    'Parallel part 12 mm wide to 2 mm thick, 25 mm wide above; from pipe 6 mm to 50 mm outside diameter, 12 mm to 168.3 mm, 25 mm above.',
    'Parte paralela de 12 mm de ancho hasta 2 mm de espesor, de 25 mm por encima; de tubo, 6 mm hasta 50 mm de diámetro exterior, 12 mm hasta 168.3 mm, 25 mm por encima.',
  ],
  [
    'Pipe over 50 mm to 168.3 mm outside diameter: 12 mm wide; what is more than 10 % narrower is doubted here.',
    'Tubo de más de 50 mm a 168.3 mm de diámetro exterior: 12 mm de ancho; lo que es más de un 10 % más estrecho se pone aquí en duda.',
  ],
  [
    'Pipe over 168.3 mm outside diameter: 25 mm wide; what is more than 10 % narrower is doubted here.',
    'Tubo de más de 168.3 mm de diámetro exterior: 25 mm de ancho; lo que es más de un 10 % más estrecho se pone aquí en duda.',
  ],

  // What the packs are called; numbers of standards stay.
  ['{1}, procedure tensile test, 20th edition', '{1}, ensayo de tracción del procedimiento, 20.ª edición'],
  [
    '{1}, procedure tensile test, 21st edition and later',
    '{1}, ensayo de tracción del procedimiento, 21.ª edición y posteriores',
  ],
  ['{1}, transverse tension (QW-150)', '{1}, tracción transversal (QW-150)'],
  [
    '{1}, all-weld-metal tension (US customary units)',
    '{1}, tracción de metal de soldadura (unidades de EE. UU.)',
  ],
  ['{1}, all-weld-metal tension (SI units)', '{1}, tracción de metal de soldadura (unidades SI)'],
  ['{1}, reduced-section tension', '{1}, tracción de sección reducida'],
  ['{1}, cross-weld tensile test', '{1}, ensayo de tracción transversal a la soldadura'],
  ['{1}, transverse tensile test to ISO 4136', '{1}, ensayo de tracción transversal según ISO 4136'],
  [
    'One base metal: at least its minimum specified tensile strength.',
    'Un solo metal base: al menos su resistencia mínima especificada.',
  ],
  [
    'Two base metals of different minima: at least the minimum of the weaker one.',
    'Dos metales base de mínimos distintos: al menos el mínimo del más débil.',
  ],
  [
    'Weld metal weaker on purpose, where the construction code provides for it: at least the minimum of the weld metal.',
    'Metal de soldadura más débil a propósito, donde el código de construcción lo prevé: al menos el mínimo del metal de soldadura.',
  ],
];
