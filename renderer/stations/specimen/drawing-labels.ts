/** What the dimension lines of the drawing carry: the means of what was measured, in the chosen units. */
import type { Geometry, MeasuredDimension, Specimen } from '../../../core/specimen/specimen.ts';
import type { DrawingLabels } from '../../design/drawing/specimen-drawing.tsx';
import type { UnitSystem } from '../../numbers/display-unit.ts';
import { type Language, quantityText } from '../../numbers/format.ts';

export function drawingLabels(specimen: Specimen, system: UnitSystem, language: Language): DrawingLabels {
  const mm = (d: MeasuredDimension): string => quantityText(d.mean, 'mm', system, language);
  const { geometry } = specimen;
  const gauge = specimen.gaugeLength === undefined ? {} : { gaugeLength: `L0 = ${mm(specimen.gaugeLength)}` };
  switch (geometry.kind) {
    case 'flat':
      return { width: mm(geometry.width), thickness: mm(geometry.thickness), ...gauge };
    case 'round':
      return { diameter: mm(geometry.diameter), ...gauge };
    case 'tube':
      return { outerDiameter: mm(geometry.outerDiameter), wall: mm(geometry.wall), ...gauge };
    case 'pipe-strip':
      return {
        width: mm(geometry.width),
        wall: mm(geometry.wall),
        outerDiameter: mm(geometry.outerDiameter),
        ...gauge,
      };
    case 'weighed':
      return {
        length: mm(geometry.length),
        mass: quantityText(geometry.mass.mean, 'g', system, language),
        density: quantityText(geometry.density.mean, 'g/mm³', system, language),
      };
    case 'unmeasured':
      return gauge;
  }
}

/** Smaller over larger dimension of the section, for drawing it in proportion. */
export function sectionRatio(geometry: Geometry): number | null {
  if (geometry.kind === 'flat') return geometry.thickness.mean / geometry.width.mean;
  if (geometry.kind === 'tube') return geometry.wall.mean / geometry.outerDiameter.mean;
  return null;
}
