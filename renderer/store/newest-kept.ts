/** What the window remembers of so many things at most: beyond that the one that was said longest ago goes. */

/** With this one as the newest; the same key stands once. */
export function withNewest<V>(
  before: ReadonlyMap<string, V>,
  key: string,
  value: V,
  most: number,
): ReadonlyMap<string, V> {
  const after = new Map(before);
  after.delete(key);
  after.set(key, value);
  for (const oldest of after.keys()) {
    if (after.size <= most) break;
    after.delete(oldest);
  }
  return after;
}
