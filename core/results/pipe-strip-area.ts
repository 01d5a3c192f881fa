/**
 * Area of a strip cut lengthwise from pipe: its faces are arcs of the outside and the bore, its edges parallel.
 * D outside diameter, T wall, W width of the strip, d = D − 2T. All in mm (any one unit of length will do).
 */

export const ARC_FORMS = ['arc', 'simplified', 'mean-arc', 'plain'] as const;
export type ArcForm = (typeof ARC_FORMS)[number];

export interface ArcFormFacts {
  readonly form: ArcForm;
  readonly name: string;
  readonly formula: string;
  readonly source: string;
  /** Limits within which a standard allows the form; none for forms that hold everywhere. */
  readonly limits: readonly ArcLimit[];
}

export interface ArcLimit {
  /** Largest W/D. The limit itself is allowed only where `including` says so. */
  readonly widthOverDiameter: number;
  readonly including: boolean;
  readonly source: string;
}

export const ARC_FORM_FACTS: Readonly<Record<ArcForm, ArcFormFacts>> = {
  arc: {
    form: 'arc',
    name: 'exact arc form',
    formula: 'S0 = (W/4)·√(D² − W²) + (D²/4)·asin(W/D) − (W/4)·√(d² − W²) − (d²/4)·asin(W/d), d = D − 2T',
    source: 'ASTM E8/E8M 7.2 and ISO 6892-1, annex on tubes (clause from memory; the formula is geometry)',
    limits: [],
  },
  simplified: {
    form: 'simplified',
    name: 'simplified arc form',
    formula: 'S0 = T·W·(1 + W²/(6·D·(D − 2T)))',
    source: 'ISO 6892-1, annex on tubes (from memory)',
    limits: [
      { widthOverDiameter: 0.25, including: false, source: 'ISO 6892-1, annex on tubes (from memory)' },
    ],
  },
  'mean-arc': {
    form: 'mean-arc',
    name: 'mean-diameter arc form',
    formula: 'S0 = T·(D − T)·asin(W/(D − T))',
    source: 'Physical Testing and Chemical Analysis 2012 no. 10, pp. 672-673',
    limits: [],
  },
  plain: {
    form: 'plain',
    name: 'width times wall',
    formula: 'S0 = W·T',
    source: 'ASTM E8/E8M, ISO 6892-1 and ASTM A370 Fig. A2.3, each within its own limit',
    limits: [
      { widthOverDiameter: 0.1, including: false, source: 'ISO 6892-1:2009 and later (from memory)' },
      { widthOverDiameter: 0.17, including: false, source: 'ISO 6892:1998, EN 10002-1 (from memory)' },
      { widthOverDiameter: 1 / 6, including: false, source: 'ASTM E8/E8M, D/W > 6 (from memory)' },
    ],
  },
};

export interface StripSection {
  readonly outerDiameterMm: number;
  readonly wallMm: number;
  readonly widthMm: number;
}

/** True where such a strip can be cut: positive sizes, a bore, and a width that fits the bore. */
export function stripExists({ outerDiameterMm: D, wallMm: T, widthMm: W }: StripSection): boolean {
  return W > 0 && T > 0 && D - 2 * T > 0 && W <= D - 2 * T;
}

/** Area of the strip in mm² by one form. Throws a RangeError where no such strip exists. */
export function pipeStripAreaMm2(strip: StripSection, form: ArcForm): number {
  if (!stripExists(strip)) throw new RangeError('no strip of that width can be cut from that pipe');
  const { outerDiameterMm: D, wallMm: T, widthMm: W } = strip;
  const d = D - 2 * T;
  switch (form) {
    case 'arc':
      return segmentMm2(D, W) - segmentMm2(d, W);
    case 'simplified':
      return T * W * (1 + W ** 2 / (6 * D * d));
    case 'mean-arc':
      return T * (D - T) * Math.asin(W / (D - T));
    case 'plain':
      return T * W;
  }
}

/** Area between a chord strip of width W and the circle of diameter D, on one side of the centre line. */
function segmentMm2(diameter: number, width: number): number {
  const ratio = Math.min(1, width / diameter);
  return (width / 4) * Math.sqrt(diameter ** 2 - width ** 2) + (diameter ** 2 / 4) * Math.asin(ratio);
}

/** The first limit of the form that the strip breaks, if any allowance remains null. */
export function formAllowed(
  strip: StripSection,
  form: ArcForm,
): {
  readonly allowed: boolean;
  readonly allowedBy: readonly ArcLimit[];
  readonly refusedBy: readonly ArcLimit[];
} {
  const ratio = strip.widthMm / strip.outerDiameterMm;
  const limits = ARC_FORM_FACTS[form].limits;
  const within = (limit: ArcLimit): boolean =>
    limit.including ? ratio <= limit.widthOverDiameter : ratio < limit.widthOverDiameter;
  const allowedBy = limits.filter(within);
  const refusedBy = limits.filter((limit) => !within(limit));
  return { allowed: limits.length === 0 || allowedBy.length > 0, allowedBy, refusedBy };
}
