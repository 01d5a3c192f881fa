/** Curves of many pulls on one plot: chosen in the table, aligned, read out one by one, compared two by two, saved as a picture. */
import { useEffect, useMemo } from 'preact/hooks';
import { computed } from '@preact/signals';
import type { PictureForm } from '../../core/contract/picture-requests.ts';
import type { Alignment } from '../../core/curve/align.ts';
import { alignmentLoad } from '../../core/drawing/alignment-load.ts';
import { curvePlot } from '../../core/drawing/curve-plot.ts';
import { type AlignedCurve, overlayPlot, wholeRange } from '../../core/drawing/overlay-plot.ts';
import { PICTURE_WIDTH_MM, pictureHeightMm } from '../../core/drawing/picture-size.ts';
import { PULL_PLOT_FORMS } from '../../core/drawing/pull-plot.ts';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { marked } from '../archive/marked-pulls.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock, Field } from '../design/field.tsx';
import { decimalSign } from '../numbers/number-form.ts';
import { SaveAs } from '../plot/save-as.tsx';
import { savePicture } from '../plot/save-picture.ts';
import { WordSelect } from '../stations/set/word-select.tsx';
import { errand } from '../store/errand.ts';
import { archiveView } from '../store/place.ts';
import { archiveGeneration, session } from '../store/session-store.ts';
import { language, units } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { DifferencePlot } from './difference-plot.tsx';
import { lay, layNothing, laid, stillRead } from './laid-pulls.ts';
import {
  ALIGNMENTS,
  alignLoad,
  alignment,
  chosen,
  comparedTo,
  cursor,
  form,
  hidden,
  range,
  rememberOverlay,
} from './overlay-choice.ts';
import { laidCurves, originMarks, plotUnits } from './overlay-curves.ts';
import { OverlayLegend } from './overlay-legend.tsx';
import { OverlayPlot } from './overlay-plot.tsx';
import { OverlayValues } from './overlay-values.tsx';
import '../stations/station.css';
import './overlay-head.css';
import './overlay.css';

rememberOverlay();
const saving = errand();

const load = computed(() => alignmentLoad(alignLoad.value, form.value, plotUnits(units.value)));
const asked = computed<Alignment>(() =>
  alignment.value !== 'load'
    ? { kind: alignment.value }
    : load.value === null
      ? { kind: 'as-recorded' }
      : { kind: 'load', load: load.value },
);
/** What is laid, in the form that is asked for. */
const laidNow = () =>
  laidCurves(
    laid.value.flatMap(({ pull }) => (pull === null ? [] : [pull])),
    { form: form.value, alignment: asked.value, system: units.value, words: words.value },
  );
const shownOf = (curves: readonly AlignedCurve[]): readonly AlignedCurve[] =>
  curves.filter(({ pullId }) => !hidden.value.has(pullId));
const everything = computed(laidNow);
const shown = computed(() => shownOf(everything.value.curves));
const whole = computed(() => wholeRange(everything.value.curves));

export const penNumber = (pullId: number): number =>
  Math.max(
    0,
    laid.value.findIndex((one) => one.pullId === pullId),
  );

export function OverlayPlace() {
  const text = words.value.look;
  const connected = session.value !== null;
  useEffect(() => {
    if (connected) void lay(marked.value);
  }, [connected, archiveGeneration.value, marked.value]);
  useEffect(() => {
    range.value = null;
    return layNothing;
  }, []);
  const curves = shown.value;
  const first = curves.find(({ pullId }) => pullId === chosen.value) ?? curves[0] ?? null;
  const second = curves.find(({ pullId }) => pullId === comparedTo.value) ?? null;
  const picture = useMemo(
    () => ({
      title: text.forms[form.value],
      curves,
      originMarks: originMarks(words.value),
      penOf: penNumber,
      chosen: first?.pullId ?? null,
      range: range.value ?? whole.value,
      decimalSign: decimalSign(language.value),
    }),
    [curves, first, range.value, whole.value, language.value, form.value, decimalSign(language.value)],
  );
  const save = async (as: PictureForm): Promise<void> => {
    await savePicture(
      saving,
      () =>
        curvePlot(
          overlayPlot({
            ...picture,
            // Values at its marks are written with each curve.
            curves: shownOf(laidNow().curves),
            decimalSign: decimalSign(language.value),
            widthMm: PICTURE_WIDTH_MM,
            heightMm: pictureHeightMm(curves.length),
            onScreen: false,
          }),
        ),
      as,
      `${form.value}-${String(curves.length)}`,
    );
  };
  const notNow = curves.length === 0 ? text.nothingToSave : stillRead.value > 0 ? text.notAllRead : undefined;
  return (
    <div class="overlay-place">
      <div class="overlay-head">
        <Button kind="compact" id="overlay-back" onPress={() => (archiveView.value = 'table')}>
          {text.back}
        </Button>
        <h2>{text.title}</h2>
        <WordSelect
          id="overlay-first"
          label={text.form}
          value={form.value}
          choices={PULL_PLOT_FORMS}
          names={text.forms}
          onChoose={(value) => {
            form.value = value;
            range.value = null;
            cursor.value = -1;
          }}
        />
        <WordSelect
          id="overlay-align"
          label={text.align}
          value={alignment.value}
          choices={ALIGNMENTS}
          names={text.alignments}
          onChoose={(value) => {
            alignment.value = value;
            range.value = null;
          }}
        />
        {alignment.value === 'load' ? (
          <Field
            id="overlay-load"
            label={form.value === 'stress-strain' ? text.alignStress : text.alignLoad}
            number
            value={alignLoad.value}
            lengthMax={NAME_LENGTH_MAX}
            fault={load.value === null ? text.alignLoadWrong : null}
            onInput={(value) => {
              alignLoad.value = value;
              range.value = null;
            }}
          />
        ) : null}
        <SaveAs id="overlay" label={text.saveCurves} notNow={notNow} onSave={(form) => void save(form)} />
        <OverlayValues curves={curves} />
      </div>
      <FaultBlock fault={saving.fault.value} />
      <OverlayLegend notes={everything.value.notes} chosenPull={first?.pullId ?? null} />
      <div class="overlay-plots">
        <OverlayPlot picture={picture} whole={whole.value} curve={first} />
        {first === null || second === null || first === second ? null : (
          <DifferencePlot first={first} second={second} range={(range.value ?? whole.value).x} />
        )}
      </div>
    </div>
  );
}
