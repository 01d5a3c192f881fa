/** Contrast of two colours as WCAG 2.2 defines it (relative luminance, success criterion 1.4.3). */

/** Linear-light red, green and blue of `#rrggbb`, each 0 to 1. Throws a RangeError on any other form. */
export function linearRgb(colour: string): readonly [number, number, number] {
  const match = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(colour);
  if (match === null) throw new RangeError(`${colour} is not a colour of the form #rrggbb`);
  const linear = (pair: string | undefined): number => {
    const part = Number.parseInt(pair ?? '', 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  };
  return [linear(match[1]), linear(match[2]), linear(match[3])];
}

/** 0 (black) to 1 (white). */
export function relativeLuminance(colour: string): number {
  const [red, green, blue] = linearRgb(colour);
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** 1 (same) to 21 (black on white). */
export function contrastRatio(one: string, other: string): number {
  const [lighter, darker] = [relativeLuminance(one), relativeLuminance(other)].sort((a, b) => b - a);
  return ((lighter ?? 0) + 0.05) / ((darker ?? 0) + 0.05);
}
