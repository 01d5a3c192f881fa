/** What a check of the archive and the plan of a merge say of each thing, as it comes out: English forms with their Spanish. */
export const ES_CHECK_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  // What was looked at.
  ['pull {1}, raw bytes', 'ensayo {1}, bytes originales'],
  ['pull {1}, as closed', 'ensayo {1}, como se cerró'],
  ['pull {1}, two instruments', 'ensayo {1}, dos instrumentos'],
  ['pull {1}, parsed again', 'ensayo {1}, leído de nuevo'],
  ['pull {1}, as first worked out', 'ensayo {1}, como se evaluó la primera vez'],
  ['certificate {1}, pull {2}', 'certificado {1}, ensayo {2}'],
  ['evaluation {1}', 'evaluación {1}'],
  // What was found.
  ['every page of the file is sound', 'todas las páginas del fichero están bien'],
  ['every row that is named is there', 'todas las filas que se nombran están'],
  ['{1} rows name one that is missing', '{1} filas nombran una que falta'],
  [
    'all {1} entries follow from one another; the last one is {2}',
    'las {1} anotaciones se siguen unas de otras; la última es {2}',
  ],
  ['broken at entry {1} of {2}', 'rota en la anotación {1} de {2}'],
  [
    '{1} rows are what the audit chain says of them',
    '{1} filas son lo que la cadena de anotaciones dice de ellas',
  ],
  ['{1} photo agrees with its hash', '{1} foto coincide con su huella'],
  ['{1} photos agree with their hashes', '{1} fotos coinciden con sus huellas'],
  [
    "{1} of {2} don't agree with their hashes: photo {3}",
    '{1} de {2} no coinciden con sus huellas: foto {3}',
  ],
  ['{1} pull is found by what is written of it', '{1} ensayo se encuentra por lo que hay escrito de él'],
  [
    '{1} pulls are found by what is written of them',
    '{1} ensayos se encuentran por lo que hay escrito de ellos',
  ],
  [
    'the search index is derived and nothing recorded is touched, but {1}',
    'el índice de búsqueda se deriva de lo registrado, que está intacto, pero {1}',
  ],
  ['{1} bytes agree with the hashes of their blocks', '{1} bytes coinciden con las huellas de sus bloques'],
  ["{1} blocks don't agree with their hashes", '{1} bloques no coinciden con sus huellas'],
  [
    '{1} readings and their raw bytes are what they were when the record was closed',
    '{1} lecturas y sus bytes originales son los que eran cuando se cerró el registro',
  ],
  [
    'readings or raw bytes are not what they were when the record was closed',
    'las lecturas o los bytes originales no son los que eran cuando se cerró el registro',
  ],
  [
    'the raw record of each instrument is what it was when the pull was closed',
    'el registro original de cada instrumento es el que era cuando se cerró el ensayo',
  ],
  [
    'the raw record of an instrument is not what it was when the pull was closed',
    'el registro original de un instrumento no es el que era cuando se cerró el ensayo',
  ],
  [
    'the raw bytes give the same {1} readings again',
    'los bytes originales vuelven a dar las mismas {1} lecturas',
  ],
  [
    'the raw bytes give {1} readings, {2} are kept, and they differ',
    'los bytes originales dan {1} lecturas, hay {2} guardadas, y son distintas',
  ],
  ['its {1} results come out again from the record', 'sus {1} resultados vuelven a salir del registro'],
  ["it can't be worked out again: {1}", 'no se puede volver a evaluar: {1}'],
  ['its results do not come out again: {1}', 'sus resultados no vuelven a salir: {1}'],
  [
    'kept by method {1}, this program has method {2}: {3}',
    'guardado con el método {1}; este programa tiene el método {2}: {3}',
  ],
  [
    'first worked out by method {1}, this program has method {2}: {3}',
    'evaluado la primera vez con el método {1}; este programa tiene el método {2}: {3}',
  ],
  [
    '{1} more checks of pulls and results found nothing wrong',
    'otras {1} comprobaciones de ensayos y resultados no encontraron nada',
  ],
  ['{1} more faults were found and are not listed', 'se encontraron otros {1} fallos que no se listan'],
  // What a merge would do.
  [
    'its record is still open there; close it in that archive first',
    'su registro sigue abierto allí; ciérrelo antes en ese archivo',
  ],
  ['the same pull of the same archive', 'el mismo ensayo del mismo archivo'],
  [
    'pull {1} here has the same identity and other readings or raw bytes; check both archives',
    'el ensayo {1} de aquí tiene la misma identidad y otras lecturas u otros bytes; compruebe los dos archivos',
  ],
  [
    'pull {1} here has the same raw bytes and another start or other readings; look at both and say which counts',
    'el ensayo {1} de aquí tiene los mismos bytes y otro comienzo u otras lecturas; mire los dos y diga cuál vale',
  ],
  ['would be added: {1}', 'se añadiría: {1}'],
  [
    'said otherwise in both and left as it is here: {1}; look at both and say which counts',
    'dicho de otro modo en los dos y dejado como está aquí: {1}; mire los dos y diga cuál vale',
  ],
];
