/**
 * Colours of hot steel on three grounds. Steel heated in air runs through straw, bronze, purple, blue and grey;
 * past that it glows cherry. Every pair that is read or followed by eye is measured in tests/unit/renderer.
 */

export const THEME_NAMES = ['chalk', 'soot', 'contrast'] as const;
export type ThemeName = (typeof THEME_NAMES)[number];

/** Colours as `#rrggbb`. */
export interface Palette {
  /** The bench on which the sheet lies. */
  readonly bench: string;
  /** The sheet: stations are written on it. */
  readonly sheet: string;
  /** What one writes into: fields, squared paper, the plot. */
  readonly paper: string;
  readonly ink: string;
  /** Second voice: labels, units, hints. Still read as text. */
  readonly pencil: string;
  /** Outlines of controls, axes: followed by eye, 3:1. */
  readonly edge: string;
  /** Ornament only: rules between rows, squares of the paper. Carries no meaning of its own. */
  readonly rule: string;
  /** The one thing that needs a person next: a filled place with `onCall` written in it. */
  readonly call: string;
  readonly onCall: string;
  /** Focus ring; 3:1 against every ground. */
  readonly focus: string;
  readonly straw: string;
  readonly bronze: string;
  readonly purple: string;
  readonly blue: string;
  readonly grey: string;
  /** Faults. Never used for "recording", and never without a word and a shape. */
  readonly cherry: string;
}

export const PALETTES: Readonly<Record<ThemeName, Palette>> = {
  chalk: {
    bench: '#d9ddd8',
    sheet: '#f1f3ef',
    paper: '#fbfcfa',
    ink: '#15191c',
    pencil: '#495158',
    edge: '#6b747b',
    rule: '#d3d8d3',
    call: '#e9b83a',
    onCall: '#15191c',
    focus: '#0a5ab4',
    straw: '#8a6700',
    bronze: '#8f3d12',
    purple: '#5b1f8c',
    blue: '#1a6cc0',
    grey: '#59646d',
    cherry: '#b3150c',
  },
  soot: {
    bench: '#0b0d0f',
    sheet: '#16191c',
    paper: '#101315',
    ink: '#edebe5',
    pencil: '#a8b0b5',
    edge: '#6d777e',
    rule: '#293036',
    call: '#efbe45',
    onCall: '#15191c',
    focus: '#8cc4ff',
    straw: '#e9bd4e',
    bronze: '#e88c52',
    purple: '#b07ae6',
    blue: '#7cc0ff',
    grey: '#9aa6af',
    cherry: '#ff8b76',
  },
  contrast: {
    bench: '#000000',
    sheet: '#000000',
    paper: '#000000',
    ink: '#ffffff',
    pencil: '#e4e8ea',
    edge: '#ffffff',
    rule: '#5c656b',
    call: '#ffd84d',
    onCall: '#000000',
    focus: '#7fd4ff',
    straw: '#ffd84d',
    bronze: '#ffa666',
    purple: '#c99aff',
    blue: '#a6d8ff',
    grey: '#cfd6db',
    cherry: '#ff9d8a',
  },
};

/** Curve colours in the order in which they are given out; each has a dash of its own beside it (`curve-style.ts`). */
export const CURVE_INKS = ['blue', 'bronze', 'purple', 'straw', 'grey'] as const;
export type CurveInk = (typeof CURVE_INKS)[number];
