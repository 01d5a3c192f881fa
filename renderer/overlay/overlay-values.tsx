/** Key values of the curves that lie over each other, and of the difference of two, as tables. */
import type { AlignedCurve } from '../../core/drawing/overlay-plot.ts';
import { significant } from '../numbers/format.ts';
import { KeyValues } from '../plot/key-values.tsx';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';

const DIGITS = 4;

/** A value of an axis; a dash where the curve has none there. */
const figure = (value: number | undefined): string =>
  value === undefined || Number.isNaN(value) ? '–' : significant(value, DIGITS, language.value);

const axisTitle = ({ title, unit }: { readonly title: string; readonly unit: string }): string =>
  unit === '' || unit === '1' ? title : `${title}, ${unit}`;

/** Each marked point of each curve that is shown, where it stands as the curves are aligned. */
export function OverlayValues({ curves }: { readonly curves: readonly AlignedCurve[] }) {
  const text = words.value.look;
  const [first] = curves;
  if (first === undefined) return null;
  return (
    <KeyValues
      id="overlay-values"
      isOver
      caption={text.title}
      nameHead={text.valuesOf}
      columns={[words.value.plot.point, axisTitle(first.plot.x), axisTitle(first.plot.y)]}
      rows={curves.flatMap(({ name, plot, shift, isOutline }) =>
        (isOutline ? [] : (plot.marks ?? [])).map((mark) => ({
          name,
          cells: [mark.words, figure(mark.x + shift), figure(mark.y)],
        })),
      )}
    />
  );
}

/** Where the range that two curves share begins and ends, and where they differ most to either side. */
export function DifferenceValues({
  title,
  first,
  x,
  y,
}: {
  readonly title: string;
  readonly first: AlignedCurve;
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
}) {
  const text = words.value.look;
  const points = differencePoints(y);
  return (
    <KeyValues
      id="difference-values"
      isOver
      caption={title}
      columns={[axisTitle(first.plot.x), `Δ ${axisTitle(first.plot.y)}`]}
      rows={points.map(({ name, at }) => ({
        name: text.differencePoints[name],
        cells: [figure(x[at]), figure(y[at])],
      }))}
    />
  );
}

/** Places in the difference that its table tells, in the order of x; none where the curves share no value. */
export function differencePoints(
  y: ArrayLike<number>,
): { readonly name: 'from' | 'most' | 'least' | 'to'; readonly at: number }[] {
  const there = Array.from(y, (value, at) => ({ value, at })).filter(({ value }) => !Number.isNaN(value));
  const first = there[0];
  const last = there.at(-1);
  if (first === undefined || last === undefined) return [];
  let [most, least] = [first, first];
  for (const one of there) {
    if (one.value > most.value) most = one;
    if (one.value < least.value) least = one;
  }
  return (
    [
      { name: 'from', at: first.at },
      { name: 'most', at: most.at },
      { name: 'least', at: least.at },
      { name: 'to', at: last.at },
    ] as const
  ).toSorted((a, b) => a.at - b.at);
}
