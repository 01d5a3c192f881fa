/** Dimensions as they were typed, every measurement of them. */
import type { MeasuredDimension, Specimen } from '../specimen/specimen.ts';
import { measuredDimensions } from '../specimen/measured-dimensions.ts';
import { numberText } from '../quantity/number-text.ts';
import type { Fact } from './certificate-content.ts';

const GEOMETRY_WORDS: Readonly<Record<Specimen['geometry']['kind'], string>> = {
  flat: 'flat',
  round: 'round',
  tube: 'full section of a tube',
  'pipe-strip': 'strip cut lengthwise from pipe',
  weighed: 'uniform section, area by weighing',
  unmeasured: 'section not measured',
};

const DIMENSION_WORDS: Readonly<Record<string, string>> = {
  width: 'width',
  thickness: 'thickness',
  diameter: 'diameter',
  outerDiameter: 'outside diameter',
  wall: 'wall',
  mass: 'mass',
  length: 'length',
  density: 'density',
};

export function dimensionFacts(specimen: Specimen): Fact[] {
  const { geometry } = specimen;
  const measured = measuredDimensions(geometry).map(([key, dimension]) => ({
    label: DIMENSION_WORDS[key] ?? key,
    value: measurements(dimension),
  }));
  return [
    { label: 'form', value: GEOMETRY_WORDS[geometry.kind] },
    ...measured,
    ...fact('gauge length', specimen.gaugeLength),
    ...length('extensometer gauge length', specimen.extensometerGaugeLengthMm),
    ...length('parallel length', specimen.parallelLengthMm),
    ...fact('gauge length after fracture', specimen.finalGaugeLength),
    ...fact('width after fracture', specimen.finalWidth),
    ...fact('thickness after fracture', specimen.finalThickness),
    ...fact('diameter after fracture', specimen.finalDiameter),
    ...length('fracture to the nearer gauge mark', specimen.distanceToNearestMarkMm),
    ...(specimen.notes === undefined ? [] : [{ label: 'notes', value: specimen.notes }]),
  ];
}

function measurements(dimension: MeasuredDimension): string {
  return dimension.measurements.map((quantity) => quantity.text).join(', ');
}

function fact(label: string, dimension: MeasuredDimension | undefined): Fact[] {
  return dimension === undefined ? [] : [{ label, value: measurements(dimension) }];
}

function length(label: string, millimetres: number | undefined): Fact[] {
  return millimetres === undefined ? [] : [{ label, value: `${numberText(millimetres)} mm` }];
}
