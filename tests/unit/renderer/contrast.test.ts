import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { contrastRatio, linearRgb, relativeLuminance } from '../../../renderer/design/contrast.ts';
import { CURVE_INKS, PALETTES, type Palette, THEME_NAMES } from '../../../renderer/design/palette.ts';
import { CURVE_DASH } from '../../../renderer/plot/curve-style.ts';
import { groundColour } from '../../../renderer/plot/paint-drawing.ts';

const GROUNDS = ['bench', 'sheet', 'paper'] as const;

describe('the measure of contrast', () => {
  // WCAG 2.2, definition of contrast ratio: black on white is 21, a colour on itself is 1.
  it('is 21 for black on white and 1 for a colour on itself', () => {
    expect(contrastRatio('#000000', '#ffffff')).toBeCloseTo(21, 10);
    expect(contrastRatio('#8f3d12', '#8f3d12')).toBe(1);
  });

  it('gives #767676 on white the 4.54 that is known as the lightest grey that passes (common practice, no source)', () => {
    expect(contrastRatio('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
  });

  it('refuses what is no colour of six digits', () => {
    expect(() => linearRgb('#fff')).toThrow(RangeError);
  });
});

describe.each(THEME_NAMES)('on the ground %s', (theme) => {
  const palette = PALETTES[theme];

  // WCAG 2.2, success criterion 1.4.3.
  it.each(GROUNDS)('text and second voice are readable on the %s: 4.5 to 1', (ground) => {
    for (const ink of ['ink', 'pencil'] as const) {
      expect(contrastRatio(palette[ink], palette[ground]), ink).toBeGreaterThanOrEqual(4.5);
    }
  });

  it('fault sentences and coloured words are readable on sheet and paper: 4.5 to 1', () => {
    for (const ground of ['sheet', 'paper'] as const) {
      for (const ink of [...CURVE_INKS, 'cherry'] as const) {
        expect(contrastRatio(palette[ink], palette[ground]), `${ink} on ${ground}`).toBeGreaterThanOrEqual(
          4.5,
        );
      }
    }
  });

  it('what stands on the call to act is readable: 4.5 to 1', () => {
    expect(contrastRatio(palette.onCall, palette.call)).toBeGreaterThanOrEqual(4.5);
  });

  it('a pressed or hovered button, drawn in reverse, is readable: 4.5 to 1', () => {
    expect(contrastRatio(palette.sheet, palette.ink)).toBeGreaterThanOrEqual(4.5);
  });

  // WCAG 2.2, success criterion 1.4.11.
  it.each(GROUNDS)('edges of controls, focus and curves are seen on the %s: 3 to 1', (ground) => {
    for (const line of ['edge', 'focus', ...CURVE_INKS] as const) {
      expect(contrastRatio(palette[line], palette[ground]), line).toBeGreaterThanOrEqual(3);
    }
  });

  it('curves are told apart by readers who see no red, no green or no blue', () => {
    for (const deficiency of Object.keys(SEEN_BY) as (keyof typeof SEEN_BY)[]) {
      const seen = CURVE_INKS.map((ink) => lab(see(palette[ink], SEEN_BY[deficiency])));
      for (let i = 0; i < seen.length; i++)
        for (let j = i + 1; j < seen.length; j++) {
          const distance = Math.hypot(...(seen[i] ?? []).map((v, k) => v - (seen[j]?.[k] ?? 0)));
          expect(
            distance,
            `${CURVE_INKS[i] ?? ''} and ${CURVE_INKS[j] ?? ''}, ${deficiency}`,
          ).toBeGreaterThan(SEEN_AT_A_GLANCE);
        }
    }
  });
});

it('each curve ink has a dash of its own beside its colour', () => {
  const dashes = CURVE_INKS.map((ink) => CURVE_DASH[ink].join(' '));
  expect(new Set(dashes).size).toBe(CURVE_INKS.length);
});

it('in grey print each curve stands out from white paper: 3 to 1, and its dash tells which it is', () => {
  for (const ink of CURVE_INKS) {
    const luminance = relativeLuminance(PALETTES.chalk[ink]);
    expect(1.05 / (luminance + 0.05), ink).toBeGreaterThanOrEqual(3);
  }
  // Two dashes with strokes and gaps within a millimetre of each other pass for one on paper.
  const strokes = CURVE_INKS.map((ink) => CURVE_DASH[ink].map((px) => (px * 25.4) / 96));
  for (const [i, one] of strokes.entries())
    for (const other of strokes.slice(i + 1)) {
      const alike = one.length === other.length && one.every((mm, k) => Math.abs(mm - (other[k] ?? 0)) < 1);
      expect(alike, `${one.join(' ')} and ${other.join(' ')}`).toBe(false);
    }
});

it('every palette names the same colours', () => {
  const names = (p: Palette) => Object.keys(p).sort();
  for (const theme of THEME_NAMES) expect(names(PALETTES[theme])).toEqual(names(PALETTES.chalk));
});

/** Two colours pass for one below a difference of about 2.3 in CIELAB; three times that is seen at a glance (common practice, no source). */
const SEEN_AT_A_GLANCE = 3 * 2.3;

/**
 * What is left of linear red, green and blue for readers without red, green or blue receptors: Machado, Oliveira and
 * Fernandes, "A physiologically-based model for simulation of color vision deficiency" (2009), severity 1; figures as
 * general-purpose colour libraries (colorspacious, colour-science) carry them.
 */
const SEEN_BY = {
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
} as const;

type Matrix = readonly (readonly [number, number, number])[];

function see(colour: string, matrix: Matrix): number[] {
  const rgb = linearRgb(colour);
  return matrix.map((row) => Math.min(1, Math.max(0, row[0] * rgb[0] + row[1] * rgb[1] + row[2] * rgb[2])));
}

/** CIELAB under D65 from linear sRGB (IEC 61966-2-1 primaries; CIE 15). */
function lab([r = 0, g = 0, b = 0]: number[]): [number, number, number] {
  const f = (t: number) => (t > 216 / 24389 ? Math.cbrt(t) : ((24389 / 27) * t + 16) / 116);
  const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.95047);
  const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

describe('what is painted before the page’s own styles are there', () => {
  it('has the colours of its grounds, so that nothing flashes', () => {
    const first = readFileSync(new URL('../../../renderer/first.css', import.meta.url), 'utf8');
    const window = readFileSync(new URL('../../../electron/main/app-window.ts', import.meta.url), 'utf8');
    for (const ground of THEME_NAMES) {
      const { bench, sheet, ink } = PALETTES[ground];
      for (const colour of [bench, sheet, ink]) expect(first).toContain(colour);
      expect(window).toContain(sheet);
    }
  });
});

/** Of no meaning of their own: they stand on the bench too. */
const isPlain = (ink: keyof Palette): boolean => ink === 'ink' || ink === 'pencil';

/** Of the style sheets as they are: every rule without rules inside it. */
const RENDERER = new URL('../../../renderer/', import.meta.url);
const RULES = readdirSync(RENDERER, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.css') && name !== 'first.css')
  .flatMap((name) => {
    const text = readFileSync(new URL(name, RENDERER), 'utf8').replaceAll(/\/\*.*?\*\//gs, '');
    return [...text.matchAll(/([^{}]+)\{([^{}]*)\}/g)].map(([, selector = '', body = '']) => ({
      where: `${name} ${selector.trim()}`,
      its: new Map(
        [...body.matchAll(/([\w-]+)\s*:\s*([^;]+);/g)].map(([, property = '', value = '']) => [
          property,
          value,
        ]),
      ),
    }));
  });
/** The colour of the palette that a declaration names, or null where it names none or several. */
function paletteName(value: string | undefined): keyof Palette | null {
  const name = /^var\(--([a-z-]+)\)$/
    .exec(value ?? '')?.[1]
    ?.replaceAll(/-(\w)/g, (_, c: string) => c.toUpperCase());
  return name !== undefined && name in PALETTES.chalk ? (name as keyof Palette) : null;
}

describe('the style sheets as they are', () => {
  it('have no colour of their own beside those of the palette, which are measured', () => {
    for (const { where, its } of RULES)
      for (const [property, value] of its)
        expect(value, `${where}: ${property}`).not.toMatch(
          /#[0-9a-f]{3,8}\b|\b(rgb|hsl|oklch|lab)a?\(|\b(white|black|red|green|blue|gr[ae]y|orange|yellow)\b(?!\))/i,
        );
  });

  it('write every text readably on its own ground, or on any that it can stand on: 4.5 to 1', () => {
    let written = 0;
    for (const { where, its } of RULES) {
      const ink = paletteName(its.get('color'));
      if (ink === null) continue;
      const own = paletteName(its.get('background') ?? its.get('background-color'));
      // Coloured words and faults stand on sheet and paper alone.
      const grounds =
        own === null
          ? ink === 'sheet' || ink === 'onCall'
            ? []
            : GROUNDS.slice(isPlain(ink) ? 0 : 1)
          : [own];
      expect(own === null && grounds.length === 0, `${where}: for which ground?`).toBe(false);
      for (const theme of THEME_NAMES)
        for (const ground of grounds)
          expect(
            contrastRatio(PALETTES[theme][ink], PALETTES[theme][ground]),
            `${where}: ${ink} on ${ground}, ${theme}`,
          ).toBeGreaterThanOrEqual(4.5);
      written++;
    }
    expect(written).toBeGreaterThan(50);
  });

  it('frame what is pressed or written into so that it is seen: 3 to 1', () => {
    let framed = 0;
    for (const { where, its } of RULES)
      for (const [property, value] of its) {
        if (!/^(border|outline)(-(top|bottom|left|right|block|inline|color).*)?$/.test(property)) continue;
        const name = paletteName(/var\(--[a-z-]+\)$/.exec(value)?.[0]);
        // Rules between rows are ornament; the call has a frame of ink, or words beside it.
        if (name === null || name === 'rule' || name === 'call') continue;
        for (const theme of THEME_NAMES)
          for (const ground of GROUNDS)
            expect(
              contrastRatio(PALETTES[theme][name], PALETTES[theme][ground]),
              `${where}: ${property} on ${ground}, ${theme}`,
            ).toBeGreaterThanOrEqual(3);
        framed++;
      }
    expect(framed).toBeGreaterThan(40);
  });
});

describe('the drawings, which screen and paper share', () => {
  const DRAWING = new URL('../../../core/drawing/', import.meta.url);
  const colours = new Set(
    readdirSync(DRAWING, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .flatMap((name) => readFileSync(new URL(name, DRAWING), 'utf8').match(/#[0-9a-f]{6}\b/gi) ?? []),
  );

  it('have a colour of the ground for each of theirs, so that a changed one does not stay dark on dark', () => {
    expect(colours.size).toBeGreaterThan(10);
    for (const theme of THEME_NAMES) {
      const palette = PALETTES[theme];
      for (const colour of colours) {
        const shown = groundColour(palette, colour);
        expect(Object.values<string>({ ...palette }), `${colour} on ${theme}`).toContain(shown);
        if (shown === palette.paper || shown === palette.rule) continue;
        // Bright on light paper: an end that is dragged, which has a frame of ink.
        if (shown === palette.call && theme === 'chalk') continue;
        expect(contrastRatio(shown, palette.paper), `${colour} on ${theme}`).toBeGreaterThanOrEqual(3);
      }
    }
  });

  it('have on light ground the colours of paper, all but the paper and its squares', () => {
    const shown = [...colours].filter((colour) => groundColour(PALETTES.chalk, colour) !== colour);
    expect(shown.sort()).toEqual(['#c9cec9', '#ffffff']);
  });
});
