/** Text for a terminal: what a name or a note holds is shown, never obeyed. */

/** Controls but line end and tab, and the characters that turn the direction of everything behind them. */
// eslint-disable-next-line no-control-regex -- these are what is looked for
const NOT_SHOWN = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

/** Each as its JavaScript and JSON escape ("\u202e"), so that a JSON document stays the same document. */
export function terminalText(text: string): string {
  return text.replace(
    NOT_SHOWN,
    (character) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}
