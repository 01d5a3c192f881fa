/** Names of a specimen file's fields as people say them, for sentences on a page or on paper. */

const FIELD_WORDS: Readonly<Record<string, string>> = {
  gaugeLength: 'the gauge length',
  extensometerGaugeLength: 'the gauge length of the extensometer',
  parallelLength: 'the parallel length',
  finalGaugeLength: 'the gauge length after fracture',
  finalDiameter: 'the diameter after fracture',
  finalWidth: 'the width after fracture',
  finalThickness: 'the thickness after fracture',
  distanceToNearestMark: 'the distance from the fracture to the nearer gauge mark',
};
const FIELDS = new RegExp(String.raw`\b(?:${Object.keys(FIELD_WORDS).join('|')})\b`, 'g');

/** "enter finalDiameter" → "enter the diameter after fracture". */
export function inFieldWords(sentence: string): string {
  return sentence.replace(FIELDS, (field) => FIELD_WORDS[field] ?? field);
}
