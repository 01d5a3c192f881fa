/** The difference of two curves over the range that both of them have, under the picture of both, and as a picture of its own. */
import { useMemo } from 'preact/hooks';
import type { PictureForm } from '../../core/contract/picture-requests.ts';
import { curvePlot } from '../../core/drawing/curve-plot.ts';
import { differencePlot, mostDifferent, namesApart } from '../../core/drawing/difference-plot.ts';
import { type AlignedCurve, overlayDifference } from '../../core/drawing/overlay-plot.ts';
import { PICTURE_HEIGHT_MM, PICTURE_WIDTH_MM } from '../../core/drawing/picture-size.ts';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { differencePlaces } from './difference-places.ts';
import { originMarks } from './overlay-curves.ts';
import { DifferenceValues } from './overlay-values.tsx';
import { FaultBlock } from '../design/field.tsx';
import { SaveAs } from '../plot/save-as.tsx';
import { savePicture } from '../plot/save-picture.ts';
import { WalkedPlot } from '../plot/walked-plot.tsx';
import { significant } from '../numbers/format.ts';
import { decimalSign } from '../numbers/number-form.ts';
import { numberOfPull } from '../store/elsewhere.ts';
import { errand } from '../store/errand.ts';
import { language } from '../store/view-settings.ts';
import { words } from '../words/words.ts';

const DIGITS = 4;
const saving = errand();

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
  const most = mostDifferent(y);
  const title = text.differenceOf(
    ...namesApart(first, second, ({ pullId }) => words.value.set.pullNumber(String(numberOfPull(pullId)))),
  );
  const passed = passedOver[0] + passedOver[1];
  const figure = (value: number | undefined): string =>
    significant(value ?? Number.NaN, DIGITS, language.value);
  const picture = (paper: { widthMm: number; heightMm: number; onScreen: boolean }) =>
    differencePlot({
      ...paper,
      title,
      first,
      second,
      difference: outcome.difference,
      range,
      decimalSign: decimalSign(language.value),
      figure,
      originMarks: originMarks(words.value),
    });
  const save = (form: PictureForm): void => {
    const paper = { widthMm: PICTURE_WIDTH_MM, heightMm: PICTURE_HEIGHT_MM, onScreen: false };
    void savePicture(saving, () => curvePlot(picture(paper)), form, title.slice(0, NAME_LENGTH_MAX));
  };
  const places = differencePlaces(x, y, range);
  // The titles carry the units.
  const said = (at: number): string =>
    at < x.length ? `${first.plot.x.title}: ${figure(x[at])}; Δ ${first.plot.y.title}: ${figure(y[at])}` : '';
  const largest = text.differenceMost(said(most));
  return (
    <figure class="overlay-difference">
      <figcaption>
        <strong>{title}</strong> {largest}
        {passed === 0 ? null : <span class="pencil small"> {text.differencePassedOver(String(passed))}</span>}
      </figcaption>
      <WalkedPlot
        id="difference-plot"
        canvasClass="overlay-difference-canvas"
        name={`${title}. ${largest}`}
        keysHint={text.differenceKeys}
        changes={[outcome, range, language.value, decimalSign(language.value)]}
        places={places.map((at) => ({ key: at, x: x[at] ?? Number.NaN, y: y[at] ?? Number.NaN }))}
        said={said}
        peak={() => most}
        plot={(widthMm, heightMm) => picture({ widthMm, heightMm, onScreen: true })}
      >
        <DifferenceValues title={title} first={first} x={x} y={y} />
        <SaveAs id="difference" label={text.saveDifference} isBeside notNow={undefined} onSave={save} />
      </WalkedPlot>
      <FaultBlock fault={saving.fault.value} />
    </figure>
  );
}
