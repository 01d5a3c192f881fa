/** What is measured after the break, and what follows from it, in Spanish; forms as in `sentences.ts`. */
export const ES_AFTER_BREAK_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  ['final section at the neck, {1}', 'sección final en la estricción, {1}'],
  ['Su = π·du²/4, du mean of largest and smallest', 'Su = π·du²/4, du media del mayor y el menor'],
  [
    'mean of largest ({1} mm) and smallest ({2} mm) of {3} at the neck',
    'media del mayor ({1} mm) y el menor ({2} mm) de {3} en la estricción',
  ],
  ['mean of {1} at the neck', 'media de {1} en la estricción'],
  ['measured once at the neck', 'medido una vez en la estricción'],
  ['measured at the neck', 'medido en la estricción'],
  ['measured as {1}', 'medido: {1}'],
  ['final diameter', 'diámetro final'],
  ['final thickness', 'espesor final'],
  ['final thickness at one edge', 'espesor final en un borde'],
  ['final thickness at the centre', 'espesor final en el centro'],
  ['final thickness at the other edge', 'espesor final en el otro borde'],
  ['final gauge length', 'longitud final entre marcas'],
  [
    'One diameter was measured at the neck; two at right angles show whether it stayed round.',
    'En la estricción se midió un solo diámetro; dos en ángulo recto muestran si siguió redondo.',
  ],
  [
    'The three final thicknesses are taken as edge, centre, edge.',
    'Los tres espesores finales se toman como borde, centro, borde.',
  ],
  [
    'The parabolic form needs three final thicknesses at the neck, in the order edge, centre, edge.',
    'La forma parabólica necesita tres espesores finales en la estricción, en el orden borde, centro, borde.',
  ],
  [
    'The final section ({1} mm²) is larger than the original one ({2} mm²); measure at the neck again and check the units.',
    'La sección final ({1} mm²) es mayor que la inicial ({2} mm²); mida de nuevo en la estricción y compruebe las unidades.',
  ],
  [
    'The refitted halves ({1}) are shorter than the original gauge length ({2}); measure both again.',
    'Las mitades unidas ({1}) son más cortas que la longitud inicial entre marcas ({2}); mida ambas de nuevo.',
  ],
  [
    '{1}: marked to a nominal length, within 0.25 % (ASTM E8/E8M Fig. 8)',
    '{1}: marcada según una longitud nominal, con un margen del 0.25 % (ASTM E8/E8M Fig. 8)',
  ],
  [
    'percentage elongation after fracture, converted to a gauge length of {1} mm',
    'alargamiento porcentual tras la rotura, convertido a una longitud entre marcas de {1} mm',
  ],
  ['converted on request by {1}, not measured', 'convertido a petición según {1}, no medido'],
  ['elongation measured', 'alargamiento medido'],
  ['gauge length measured on', 'longitud en la que se midió'],
  ['section measured on', 'sección en la que se midió'],
  ['gauge length asked for', 'longitud pedida'],
  ['section asked for', 'sección pedida'],
  ['asked for', 'pedido'],
  [
    'A gauge length of more than {1}·√S0 lies outside the rule; this value is beyond it.',
    'Una longitud de más de {1}·√S0 queda fuera de la regla; este valor la rebasa.',
  ],
  [
    'intervals, for a fracture near a mark: {1} intervals, {2} between X and Y',
    'por intervalos, para una rotura junto a una marca: {1} intervalos, {2} entre X e Y',
  ],
  ['length between X and Y', 'longitud entre X e Y'],
  ['length beyond Y', 'longitud más allá de Y'],
  [
    'ISO 6892-1, annex on measuring elongation by intervals (from memory)',
    'ISO 6892-1, anexo sobre la medida del alargamiento por intervalos (de memoria)',
  ],
  ['measured', 'medido'],
];
