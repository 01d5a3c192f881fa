/** Text that anybody may have typed, as it may stand in SVG or HTML: nothing in it is taken for markup. */
/** Signs that end an element or an attribute, and control signs that XML doesn't know. */
export function escapedMarkup(text: string): string {
  return (
    text
      // eslint-disable-next-line no-control-regex -- control signs are what is replaced.
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, ' ')
      .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
      .replaceAll('&', '&amp;')
      .replaceAll('<', '&lt;')
      .replaceAll('>', '&gt;')
      .replaceAll('"', '&quot;')
  );
}
