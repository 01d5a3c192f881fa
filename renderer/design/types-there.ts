/** The page's own types (fonts), before anything is written in them. */

/** Types that are longer in coming are not waited for: the page is then written in the system's until they are there. */
const WAIT_MS_MAX = 250;

/**
 * Settles when all types of the style sheet are there. Text that is laid out before them is measured in stand-ins, of which
 * each is asked for at another process, size by size: some two hundred questions before the first picture of a station.
 */
export async function typesAreThere(): Promise<void> {
  const all = [...document.fonts].map((face) => face.load());
  let limit: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<void>((go) => (limit = setTimeout(go, WAIT_MS_MAX)));
  // One that can't be had is stood in for by the system's.
  await Promise.race([Promise.allSettled(all), late]);
  clearTimeout(limit);
}
