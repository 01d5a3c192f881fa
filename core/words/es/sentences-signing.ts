/** What is refused when somebody signs, certifies or is entered among the people: English forms with their Spanish. */
export const ES_SIGNING_SENTENCES: readonly (readonly [english: string, spanish: string])[] = [
  ['A signature needs a name. Nothing was signed.', 'Una firma necesita un nombre. No se firmó nada.'],
  ['{1} signs here no more. Nothing was signed.', '{1} ya no firma aquí. No se firmó nada.'],
  [
    '{1} signs with a PIN here; give it. Nothing was done.',
    '{1} firma aquí con PIN; indíquelo. No se hizo nada.',
  ],
  ['That is not the PIN. Nothing was done.', 'Ese no es el PIN. No se hizo nada.'],
  [
    'After {1} wrong PINs none is taken for {2} s more. Nothing was done.',
    'Tras {1} PIN erróneos no se admite ninguno durante {2} s más. No se hizo nada.',
  ],
  [
    'Pull {1} is still being recorded; put its record away before a certificate is made of it.',
    'El ensayo {1} aún se está registrando; dé por concluido su registro antes de hacer un certificado de él.',
  ],
  [
    'Set {1} has no specimen yet, so there is nothing to certify; put its specimens into it first.',
    'El conjunto {1} aún no tiene ninguna probeta, así que no hay nada que certificar; ponga antes en él sus probetas.',
  ],
  [
    'Set {1} has no member {2}; look at its members and name one of them.',
    'El conjunto {1} no tiene ninguna probeta {2}; mire sus probetas y nombre una de ellas.',
  ],
  [
    'No certificate {1} was issued from this archive.',
    'De este archivo no se emitió ningún certificado {1}.',
  ],
  [
    'What certificate {1} said has changed since. Write it anew, read it, and sign that one.',
    'Lo que decía el certificado {1} ha cambiado desde entonces. Escríbalo de nuevo, léalo y firme ese.',
  ],
  [
    'Certificate {1} is signed "{2}" by {3} already. Nothing was added.',
    'El certificado {1} ya está firmado «{2}» por {3}. No se añadió nada.',
  ],
  [
    'Certificate {1} has {2} signatures, as many as it takes.',
    'El certificado {1} tiene {2} firmas, tantas como admite.',
  ],
  [
    'The sign {1} belongs to another person here; choose another.',
    'La sigla {1} es aquí de otra persona; elija otra.',
  ],
  [
    'There is no person {1} here, or the entry was corrected meanwhile; look at the list again.',
    'Aquí no hay ninguna persona {1}, o su ficha se corrigió entretanto; mire de nuevo la lista.',
  ],
];
