/** The page's own scheme: no file address and no network address ever shows in the window. */

export const PAGE_SCHEME = 'gaugemark';
export const PAGE_ORIGIN = `${PAGE_SCHEME}://page`;
export const PAGE_ADDRESS = `${PAGE_ORIGIN}/index.html`;
/** The sheet of the camera: a page of its own, in a session of its own. */
export const CAMERA_ADDRESS = `${PAGE_ORIGIN}/camera.html`;

/** Whether an address is of our page: by its parsed parts, since a beginning of text can be forged. */
export function isPageAddress(address: string): boolean {
  if (!URL.canParse(address)) return false;
  const url = new URL(address);
  return url.protocol === `${PAGE_SCHEME}:` && url.host === 'page' && url.username === '';
}
