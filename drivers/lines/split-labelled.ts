/** Values behind labels: "L=12.5 X:0.031". */
import type { LineFormatOf } from '../../core/contract/readout-profile.ts';
import type { LineSplitter } from './line-splitter.ts';

/** A label that is missing, or text before the first one, makes a line that does not fit. */
export function splitLabelled(format: LineFormatOf<'labelled'>): LineSplitter {
  const between = new Set(format.between);
  const labels = format.fields.map((field) => field.label);
  const isBetween = (text: string, start: number, end: number): boolean => {
    for (let at = start; at < end; at++) if (!between.has(text.charAt(at))) return false;
    return true;
  };
  const value = (text: string, start: number, end: number): string => {
    let from = start;
    let to = end;
    while (from < to && between.has(text.charAt(from))) from++;
    while (to > from && between.has(text.charAt(to - 1))) to--;
    return text.slice(from, to);
  };
  return (text) => {
    const places = placesOf(text, labels, format.ordered);
    if (places === null) return null;
    const order = places.map((_, index) => index);
    if (!format.ordered) order.sort((a, b) => (places[a] ?? 0) - (places[b] ?? 0));
    if (!isBetween(text, 0, places[order[0] ?? 0] ?? 0)) return null;
    const values: string[] = [];
    order.forEach((index, rank) => {
      const start = (places[index] ?? 0) + (labels[index] ?? '').length;
      const following = order[rank + 1];
      const end = following === undefined ? text.length : (places[following] ?? text.length);
      values[index] = value(text, start, end);
    });
    return values;
  };
}

/** Where each label begins, or null where one is missing, stands twice, or overlaps another. */
function placesOf(text: string, labels: readonly string[], ordered: boolean): number[] | null {
  const places: number[] = [];
  let from = 0;
  for (const label of labels) {
    const at = text.indexOf(label, ordered ? from : 0);
    if (at === -1) return null;
    if (!ordered && text.indexOf(label, at + label.length) !== -1) return null;
    places.push(at);
    from = at + label.length;
  }
  // A label that comes again behind the last value: two lines glued into one.
  const first = labels[0] ?? '';
  if (text.indexOf(first, (places[0] ?? 0) + first.length) !== -1 && first.length > 1) return null;
  return places;
}
