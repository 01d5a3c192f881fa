/**
 * Text cells that a spreadsheet would run as a formula are made plain text by an apostrophe in front. Numbers never
 * come through here: −5 stays a number. OWASP ASVS 1.2.10 (leading = + − @, tab, NUL); line breaks and the wide
 * forms of East Asian fonts beside it.
 */

/** A formula may hide behind blanks, quotes and control signs, which spreadsheets pass over. */
// eslint-disable-next-line no-control-regex -- control signs are what is looked for.
const FORMULA = /^[\s"'\u0000-\u001f\u200b\u2060\ufeff]*[=+\-@\u2212\uff1d\uff0b\uff0d\uff20]/u;
// eslint-disable-next-line no-control-regex -- see above.
const CONTROL_FIRST = /^[\t\r\n\u0000]/u;

export function neutraliseText(text: string): string {
  return FORMULA.test(text) || CONTROL_FIRST.test(text) ? `'${text}` : text;
}
