/** Dimensions as they were typed, every measurement of them. */
import type { MeasuredDimension, Specimen } from '../specimen/specimen.ts';
import { measuredDimensions } from '../specimen/measured-dimensions.ts';
import { numberText } from '../quantity/number-text.ts';
import type { PaperText, PaperWords } from '../words/paper-words.ts';
import type { Fact } from './certificate-content.ts';

export const GEOMETRY_WORDS = {
  flat: 'flat',
  round: 'round',
  tube: 'full section of a tube',
  'pipe-strip': 'strip cut lengthwise from pipe',
  weighed: 'uniform section, area by weighing',
  unmeasured: 'section not measured',
} as const satisfies Readonly<Record<Specimen['geometry']['kind'], PaperText>>;

const DIMENSION_WORDS: Readonly<Record<string, PaperText>> = {
  width: 'width',
  thickness: 'thickness',
  diameter: 'diameter',
  outerDiameter: 'outside diameter',
  wall: 'wall',
  mass: 'mass',
  length: 'length',
  density: 'density',
};

export function dimensionFacts(specimen: Specimen, { text }: PaperWords): Fact[] {
  const { geometry } = specimen;
  const measured = measuredDimensions(geometry).map(([key, dimension]) => {
    const label = DIMENSION_WORDS[key];
    return { label: label === undefined ? key : text(label), value: measurements(dimension) };
  });
  const fact = (label: PaperText, dimension: MeasuredDimension | undefined): Fact[] =>
    dimension === undefined ? [] : [{ label: text(label), value: measurements(dimension) }];
  const length = (label: PaperText, millimetres: number | undefined): Fact[] =>
    millimetres === undefined ? [] : [{ label: text(label), value: `${numberText(millimetres)} mm` }];
  return [
    { label: text('form'), value: text(GEOMETRY_WORDS[geometry.kind]) },
    ...measured,
    ...fact('gauge length', specimen.gaugeLength),
    ...length('extensometer gauge length', specimen.extensometerGaugeLengthMm),
    ...length('parallel length', specimen.parallelLengthMm),
    ...fact('gauge length after fracture', specimen.finalGaugeLength),
    ...fact('width after fracture', specimen.finalWidth),
    ...fact('thickness after fracture', specimen.finalThickness),
    ...fact('diameter after fracture', specimen.finalDiameter),
    ...length('fracture to the nearer gauge mark', specimen.distanceToNearestMarkMm),
    ...(specimen.notes === undefined ? [] : [{ label: text('notes'), value: specimen.notes }]),
  ];
}

function measurements(dimension: MeasuredDimension): string {
  return dimension.measurements.map((quantity) => quantity.text).join(', ');
}
