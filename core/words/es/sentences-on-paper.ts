/** Sentences that only paper tells, put together elsewhere in core and recorder: English forms with their Spanish, as in `sentences.ts`. */
export const ES_ON_PAPER_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  ['{1} (stated at import)', '{1} (declarado al importar)'],
  ['{1} (stated later)', '{1} (declarado después)'],
  ['{1} (stated later by {2})', '{1} (declarado después por {2})'],
  ['frame {1}, no. {2}', 'máquina {1}, n.º {2}'],
  ['force channel {1}, no. {2}', 'canal de fuerza {1}, n.º {2}'],
  ['extensometer {1}, no. {2}', 'extensómetro {1}, n.º {2}'],
  ['calliper {1}, no. {2}', 'calibre {1}, n.º {2}'],
  ['class {1} ({2})', 'clase {1} ({2})'],
  ['ILAC-G8:09/2019 and JCGM 106:2012, from memory', 'ILAC-G8:09/2019 y JCGM 106:2012, de memoria'],

  ['Simulated frame (US)', 'Máquina simulada (unidades de EE. UU.)'],

  // Verifications.
  ['Lowest force that can be verified: {1}', 'Menor fuerza que se puede verificar: {1}'],
  [
    'The limits of ISO 9513 and ASTM E83 are from memory: check them against your own copy.',
    'Los límites de ISO 9513 y ASTM E83 son de memoria: compruébelos con su propia copia.',
  ],
  ['{1} = {2} %; {3} µm; strain {4} of {5}', '{1} = {2} %; {3} µm; deformación {4} de {5}'],
  ['ISO 9513:2012, from memory', 'ISO 9513:2012, de memoria'],
  ['ASTM E83-23 table 1, from memory', 'ASTM E83-23 tabla 1, de memoria'],

  // Gaps.
  ['no reading for {1} s', 'sin lectura durante {1} s'],
  ['no reading of the second instrument for {1} s', 'sin lectura del segundo instrumento durante {1} s'],
  [
    'the recorder ended unexpectedly and was started again',
    'el registrador terminó de improviso y se arrancó de nuevo',
  ],
  [
    'the archive could not be written to and memory was full',
    'no se podía escribir en el archivo y la memoria estaba llena',
  ],

  // Where a clause was seen.
  ['check against your copy', 'compruébelo con su ejemplar'],
  ['check against your copy ({1})', 'compruébelo con su ejemplar ({1})'],
  ['check AWS D1.2, Table 3.2', 'compruebe AWS D1.2, Table 3.2'],
  ['agrees with {1}', 'concuerda con {1}'],
  ['clause numbers from memory', 'números de los apartados de memoria'],
  ['the table itself from memory', 'la tabla misma de memoria'],
  ['that there is no allowance: from memory', 'que no hay tolerancia: de memoria'],
  ['content from memory', 'contenido de memoria'],
  ['the clause is in the contents list of {1}', 'el apartado está en el índice de {1}'],
  ['figures mostly from memory, see the table', 'cifras en su mayoría de memoria, véase la tabla'],
  ['table number not checked', 'número de la tabla sin comprobar'],
  ['from memory: as in the 20th edition', 'de memoria: como en la 20.ª edición'],
  ['see the table', 'véase la tabla'],
  ['wording of A5.1 clause 6 taken over from memory', 'redacción de A5.1, apartado 6, tomada de memoria'],
  [
    'a study guide for welding inspectors, 7.1 and 6.2',
    'una guía de estudio para inspectores de soldadura, 7.1 y 6.2',
  ],
  ['article on PQR tests to {1}', 'artículo sobre ensayos del PQR según {1}'],
  ['the two proportions: {1}', 'las dos proporciones: {1}'],
  ['proportions: {1}', 'proporciones: {1}'],
  ['makers’ guides to A5.1, see the table', 'guías de fabricantes sobre A5.1, véase la tabla'],
  ['maker’s data sheet on {1}', 'hoja de datos de un fabricante sobre {1}'],
  ['ASME IX tensile explanation, {1}', 'explicación del ensayo de tracción de ASME IX, {1}'],
  ['{1}, clauses {2} to {3}', '{1}, apartados {2} a {3}'],
  ['{1}, clause {2}', '{1}, apartado {2}'],

  // Names of packs in short, and clauses by their matter. Here alone: on a page the same words may be what somebody typed.
  ['{1} 20th edition', '{1}, 20.ª edición'],
  ['{1} 21st edition and later', '{1}, 21.ª edición y posteriores'],
  ['different grades', 'grados distintos'],
  ['different base metals', 'metales base distintos'],
  ['{1} (specimen)', '{1} (probeta)'],
  ['{1} (rounding)', '{1} (redondeo)'],
  ['{1} (retest)', '{1} (repetición)'],
  ['tension test requirements', 'requisitos del ensayo de tracción'],
  ['all-weld-metal specimen', 'probeta de metal de soldadura'],
  ['location', 'lugar de la rotura'],
  ['retest', 'repetición'],
  ['number of specimens', 'número de probetas'],
  ['reduced-section figure', 'figura de la sección reducida'],
  ['QW-462.1(a) and (b)', 'QW-462.1(a) y (b)'],
  ['6.10.3.5 (2020), 4.9.3.5 (2010 and 2015)', '6.10.3.5 (2020), 4.9.3.5 (2010 y 2015)'],
  ['6.10.5 (2020), 4.9.5 (2010 and 2015)', '6.10.5 (2020), 4.9.5 (2010 y 2015)'],
  ['Table 1 and Table 2', 'Table 1 y Table 2'],
  ['Table 2, note', 'Table 2, nota'],
];
