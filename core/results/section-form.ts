/** The formula of S0 for every geometry: which dimensions it takes, in which order, and what it makes of them. */
import { type Exact, exactFromNumber, exactRatio, toNumber } from '../quantity/exact.ts';
import { numberText } from '../quantity/number-text.ts';
import type { UnitSymbol } from '../quantity/units.ts';
import type { MeasuredDimension, MeasuredGeometry } from '../specimen/specimen.ts';
import {
  ARC_FORM_FACTS,
  type ArcForm,
  formAllowed,
  pipeStripAreaMm2,
  stripExists,
} from './pipe-strip-area.ts';
import type { Section } from './section-rule.ts';

const PI = exactFromNumber(Math.PI);

export interface SectionForm {
  readonly dimensions: readonly NamedDimension[];
  readonly formula: string;
  readonly source: string;
  /** Exact but for π, the arcsine and the root, which are the nearest doubles. Null where no such section exists. */
  readonly areaMm2: (section: Section) => Exact | null;
  readonly substituted: (texts: readonly string[]) => string;
  readonly remarks?: readonly string[];
}

export interface NamedDimension {
  readonly symbol: string;
  readonly name: string;
  readonly dimension: MeasuredDimension;
  readonly unit: UnitSymbol;
}

/** The formula for a geometry; a form of the arc that no standard allows for this strip gives way to the exact one. */
export function sectionForm(geometry: MeasuredGeometry, arcForm: ArcForm): SectionForm {
  const product = (section: Section): Exact =>
    section.reduce((value, factor) => value.mul(factor), exactRatio(1n, 1n));
  switch (geometry.kind) {
    case 'flat':
      return {
        dimensions: [
          { symbol: 'b0', name: 'width', dimension: geometry.width, unit: 'mm' },
          { symbol: 'a0', name: 'thickness', dimension: geometry.thickness, unit: 'mm' },
        ],
        formula: 'S0 = b0·a0',
        source: 'geometry; width × thickness in the reduced section',
        areaMm2: product,
        substituted: ([b = '', a = '']) => `${b} × ${a}`,
      };
    case 'round':
      return {
        dimensions: [{ symbol: 'd0', name: 'diameter', dimension: geometry.diameter, unit: 'mm' }],
        formula: 'S0 = π·d0²/4',
        source: 'geometry',
        areaMm2: ([d]) => (d === undefined ? null : PI.mul(d).mul(d).div(4)),
        substituted: ([d = '']) => `π × (${d})² / 4`,
      };
    case 'tube':
      return {
        dimensions: [
          { symbol: 'D0', name: 'outside diameter', dimension: geometry.outerDiameter, unit: 'mm' },
          { symbol: 'a0', name: 'wall', dimension: geometry.wall, unit: 'mm' },
        ],
        formula: 'S0 = π·a0·(D0 − a0)',
        source: 'geometry; full section of a tube',
        areaMm2: ([D, a]) =>
          D === undefined || a === undefined || D.compare(a.mul(2)) <= 0 ? null : PI.mul(a).mul(D.sub(a)),
        substituted: ([D = '', a = '']) => `π × ${a} × (${D} − ${a})`,
      };
    case 'pipe-strip':
      return pipeStripForm(geometry, arcForm);
    case 'weighed':
      return {
        dimensions: [
          { symbol: 'm', name: 'mass', dimension: geometry.mass, unit: 'g' },
          { symbol: 'Lt', name: 'length', dimension: geometry.length, unit: 'mm' },
          { symbol: 'ρ', name: 'density', dimension: geometry.density, unit: 'g/mm³' },
        ],
        formula: 'S0 = m/(ρ·Lt)',
        source: 'area by weighing a product of uniform section (ISO 6892-1, clause 7; from memory)',
        areaMm2: ([m, L, rho]) =>
          m === undefined || L === undefined || rho === undefined ? null : m.div(rho).div(L),
        substituted: ([m = '', L = '', rho = '']) => `${m} / (${rho} × ${L})`,
      };
  }
}

type PipeStrip = Extract<MeasuredGeometry, { kind: 'pipe-strip' }>;

/** The form that was asked for where a standard allows it for this strip, else the exact one. */
export function usedForm(geometry: PipeStrip, asked: ArcForm): ArcForm {
  const strip = {
    outerDiameterMm: geometry.outerDiameter.mean,
    wallMm: geometry.wall.mean,
    widthMm: geometry.width.mean,
  };
  return formAllowed(strip, asked).allowed ? asked : 'arc';
}

function pipeStripForm(geometry: PipeStrip, asked: ArcForm): SectionForm {
  const used = usedForm(geometry, asked);
  const facts = ARC_FORM_FACTS[used];
  const strip = {
    outerDiameterMm: geometry.outerDiameter.mean,
    wallMm: geometry.wall.mean,
    widthMm: geometry.width.mean,
  };
  const ratioText = numberText(strip.widthMm / strip.outerDiameterMm, 3);
  const { refusedBy, allowedBy } = formAllowed(strip, asked);
  const limitText = (limits: typeof refusedBy): string =>
    limits.map((l) => `${numberText(l.widthOverDiameter, 3)} (${l.source})`).join(' and ');
  const remarks: string[] = [];
  if (used !== asked)
    remarks.push(
      `The ${ARC_FORM_FACTS[asked].name} was asked for, but W/D = ${ratioText} is not below ${limitText(refusedBy)}, so the exact arc form is used.`,
    );
  else if (refusedBy.length > 0)
    remarks.push(
      `The ${facts.name} is allowed here by the limit ${limitText(allowedBy)} but not by ${limitText(refusedBy)}; W/D = ${ratioText}.`,
    );
  return {
    dimensions: [
      { symbol: 'W', name: 'width', dimension: geometry.width, unit: 'mm' },
      { symbol: 'T', name: 'wall', dimension: geometry.wall, unit: 'mm' },
      { symbol: 'D', name: 'outside diameter', dimension: geometry.outerDiameter, unit: 'mm' },
    ],
    formula: facts.formula,
    source: facts.source,
    areaMm2: (section) => {
      const sizes = stripOf(section);
      return stripExists(sizes) ? exactFromNumber(pipeStripAreaMm2(sizes, used)) : null;
    },
    substituted: ([W = '', T = '', D = '']) => `${facts.name} with W = ${W}, T = ${T}, D = ${D}`,
    remarks,
  };
}

/** Sizes of a strip from its section as the formula takes it. */
export const stripOf = ([W, T, D]: Section) => ({
  widthMm: W === undefined ? 0 : toNumber(W),
  wallMm: T === undefined ? 0 : toNumber(T),
  outerDiameterMm: D === undefined ? 0 : toNumber(D),
});
