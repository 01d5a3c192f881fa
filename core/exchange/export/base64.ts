/** Bytes as base64 text, without leaning on one runtime's buffers. */

/** Arguments of one call: engines allow some ten thousand. */
const BYTES_AT_ONCE = 8_190;

export function base64Text(bytes: Uint8Array): string {
  let text = '';
  // A multiple of three, so that no piece but the last is padded.
  for (let at = 0; at < bytes.length; at += BYTES_AT_ONCE)
    text += btoa(String.fromCharCode(...bytes.subarray(at, at + BYTES_AT_ONCE)));
  return text;
}
