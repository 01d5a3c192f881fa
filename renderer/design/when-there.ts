/** What a page shows may have to be read from the archive first: waits for it and acts in the same task in which it is drawn. */

/** Longer than this nobody waits for a press. */
const READ_MS_MAX = 3_000;

/**
 * Gives what `find` gives as soon as it is there, before the next key can come; null where it has not come in time, or
 * is not wanted any more.
 */
export function whenThere(
  find: () => HTMLElement | null,
  isWanted: () => boolean,
  then: (element: HTMLElement | null) => void,
  waitMs = READ_MS_MAX,
): void {
  const found = find();
  if (found !== null) {
    then(found);
    return;
  }
  const done = (element: HTMLElement | null): void => {
    watch.disconnect();
    clearTimeout(limit);
    then(element);
  };
  const watch = new MutationObserver(() => {
    const element = find();
    if (element !== null || !isWanted()) done(element);
  });
  watch.observe(document.body, { childList: true, subtree: true });
  const limit = setTimeout(() => done(null), waitMs);
}
