/** Tells when the page is shown with more or fewer pixels for one of its own: it was carried to another screen, or enlarged. */

const listeners = new Set<() => void>();
/** A query is about one density; the next one asks about the density that came. */
let query: MediaQueryList | null = null;

function arm(): void {
  query = matchMedia(`(resolution: ${String(window.devicePixelRatio)}dppx)`);
  query.addEventListener('change', tell, { once: true });
}

function tell(): void {
  arm();
  for (const listener of listeners) listener();
}

/** Hands back what ends it. */
export function onPixelDensity(listener: () => void): () => void {
  listeners.add(listener);
  if (query === null) arm();
  return () => {
    listeners.delete(listener);
    if (listeners.size > 0) return;
    query?.removeEventListener('change', tell);
    query = null;
  };
}
