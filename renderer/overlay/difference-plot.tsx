/** The difference of two curves over the range that both of them have, under the picture of both. */
import { useMemo } from 'preact/hooks';
import { type AlignedCurve, overlayDifference } from '../../core/drawing/overlay-plot.ts';
import { differencePlaces } from './difference-places.ts';
import { DifferenceValues } from './overlay-values.tsx';
import { WalkedPlot } from '../plot/walked-plot.tsx';
import { significant } from '../numbers/format.ts';
import { decimalSign } from '../numbers/number-form.ts';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';

const DIGITS = 4;

export function DifferencePlot({
  first,
  second,
  range,
}: {
  readonly first: AlignedCurve;
  readonly second: AlignedCurve;
  readonly range: { readonly min: number; readonly max: number };
}) {
  const text = words.value.look;
  const isWaiting = first.isOutline || second.isOutline;
  const outcome = useMemo(
    () => (isWaiting ? null : overlayDifference(first, second)),
    [first, second, isWaiting],
  );
  if (outcome === null) return <p class="empty">{text.differenceWaits}</p>;
  if (!outcome.ok) return <p class="empty">{text.differenceNone}</p>;
  const { x, y, passedOver } = outcome.difference;
  const most = y.reduce(
    (best, value, i) => (Math.abs(value) > Math.abs(y[best] ?? 0) || Number.isNaN(y[best]) ? i : best),
    0,
  );
  const title = text.differenceOf(first.name, second.name);
  const passed = passedOver[0] + passedOver[1];
  const figure = (value: number | undefined): string =>
    significant(value ?? Number.NaN, DIGITS, language.value);
  const places = differencePlaces(x, y, range);
  const said = (at: number): string =>
    at < x.length ? `${first.plot.x.title}: ${figure(x[at])}; Δ ${first.plot.y.title}: ${figure(y[at])}` : '';
  return (
    <figure class="overlay-difference">
      <figcaption>
        <strong>{title}</strong> {text.differenceMost(figure(y[most]), figure(x[most]))}
        {passed === 0 ? null : <span class="pencil small"> {text.differencePassedOver(String(passed))}</span>}
      </figcaption>
      <WalkedPlot
        id="difference-plot"
        canvasClass="overlay-difference-canvas"
        name={`${title}. ${text.differenceMost(figure(y[most]), figure(x[most]))}`}
        keysHint={text.differenceKeys}
        changes={[outcome, range, language.value, decimalSign(language.value)]}
        places={places.map((at) => ({ key: at, x: x[at] ?? Number.NaN, y: y[at] ?? Number.NaN }))}
        said={said}
        peak={() => most}
        plot={(widthMm, heightMm) => ({
          widthMm,
          heightMm,
          title,
          decimalSign: decimalSign(language.value),
          x: { ...first.plot.x, range },
          y: { title: `Δ ${first.plot.y.title}`, unit: '' },
          traces: [{ name: title, x, y, length: x.length }],
          ...(most < x.length
            ? { marks: [{ x: x[most] ?? 0, y: y[most] ?? 0, words: figure(y[most]) }] }
            : {}),
        })}
      >
        <DifferenceValues title={title} first={first} x={x} y={y} />
      </WalkedPlot>
    </figure>
  );
}
