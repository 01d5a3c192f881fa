/** One pull taken elsewhere: as a table, as everything that is kept of it, as linked data, or its curve as a picture. */
import { signal, useSignal } from '@preact/signals';
import { PULL_FORMS, type PullForm } from '../../core/contract/archive-requests.ts';
import type { PictureForm } from '../../core/contract/picture-requests.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import type { FileKind } from '../../core/contract/window-requests.ts';
import { curvePlot } from '../../core/drawing/curve-plot.ts';
import type { Drawing } from '../../core/drawing/drawing.ts';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import { OVERLAY_READINGS_MAX, overlayPlot, wholeRange } from '../../core/drawing/overlay-plot.ts';
import { PICTURE_WIDTH_MM, pictureHeightMm } from '../../core/drawing/picture-size.ts';
import { PULL_PLOT_FORMS, type PullPlotForm } from '../../core/drawing/pull-plot.ts';
import { rowsBesideReadings } from '../../core/exchange/export/pull-csv.ts';
import { splitForSpreadsheet } from '../../core/exchange/export/spreadsheet-rows.ts';
import { Button } from '../design/button.tsx';
import { FaultBlock } from '../design/field.tsx';
import { say } from '../design/said.tsx';
import { SheetDialog } from '../keys/sheet-dialog.tsx';
import { fixed } from '../numbers/format.ts';
import { decimalSign } from '../numbers/number-form.ts';
import { laidCurves, originMarks } from '../overlay/overlay-curves.ts';
import { readPull } from '../overlay/read-pull.ts';
import { savePicture } from '../plot/save-picture.ts';
import { WordSelect } from '../stations/set/word-select.tsx';
import { errand } from '../store/errand.ts';
import { exchangeProgress, request } from '../store/session-store.ts';
import { useSteps } from '../store/taken-back.ts';
import { language, units } from '../store/view-settings.ts';
import type { ToldWhenDrawn } from '../words/told.ts';
import { words } from '../words/words.ts';
import { EXPORT_FORMS, type ExportForm, exportForm, exportedPull } from './pull-export.ts';
import { UnderWay } from './under-way.tsx';
import './pull-export.css';

const writing = errand();
/** Its place is chosen, and it is being written there. */
const isWriting = signal(false);

const isData = (form: ExportForm): form is PullForm => PULL_FORMS.some((one) => one === form);
const KIND: Readonly<Partial<Record<PullForm, FileKind>>> = { json: 'pull-json', 'json-ld': 'pull-json-ld' };
const END: Readonly<Partial<Record<PullForm, string>>> = { json: 'json', 'json-ld': 'jsonld' };
const number = (n: number): string => fixed(n, 0, language.value);

export function PullExportSheet() {
  const pull = exportedPull.value;
  if (pull === null) return null;
  return (
    <SheetDialog
      title={words.value.exchange.exportPull(pull.specimenName)}
      onClose={() => (exportedPull.value = null)}
    >
      <PullExport pull={pull} />
    </SheetDialog>
  );
}

function PullExport({ pull }: { readonly pull: KeptPull }) {
  const text = words.value.exchange;
  // What was chosen last may be a form that this pull can't have.
  const isImported = pull.source.kind === 'imported';
  const form = exportForm.value === 'original' && !isImported ? 'plain' : exportForm.value;
  const axes = useSignal<PullPlotForm>('load-extension');
  useSteps({ resultsForm: exportForm, form: axes }, pull.pullId);
  /** Why there is no picture. */
  const why = useSignal<ToldWhenDrawn | null>(null);
  const isReading = useSignal(false);
  const write = async (): Promise<void> => {
    why.value = null;
    if (isData(form)) return writeData(pull, form);
    isReading.value = true;
    const drawn = await drawnCurve(pull, axes.value);
    isReading.value = false;
    if ('why' in drawn) why.value = drawn.why;
    else await writePicture(pull, drawn.draw, form);
  };
  return (
    <div class="pull-export">
      <WordSelect
        id="pull-form"
        label={text.form}
        value={form}
        choices={isImported ? EXPORT_FORMS : EXPORT_FORMS.filter((one) => one !== 'original')}
        names={{ ...text.forms, ...text.pullForms }}
        onChoose={(value) => {
          exportForm.value = value;
          why.value = null;
        }}
      />
      {isData(form) ? (
        <Rows pull={pull} form={form} />
      ) : (
        <WordSelect
          id="pull-axes"
          label={words.value.look.form}
          value={axes.value}
          choices={PULL_PLOT_FORMS}
          names={words.value.look.forms}
          onChoose={(value) => (axes.value = value)}
        />
      )}
      <div class="actions">
        <Button kind="call" id="write-pull" onPress={() => void write()}>
          {text.writePull}
        </Button>
        {isReading.value ? <span role="status">{text.readingPull}</span> : null}
      </div>
      {why.value === null ? null : <p role="alert">{why.value()}</p>}
      <UnderWay busy={isWriting.value} what={text.exportUnderWay} />
      <FaultBlock fault={writing.fault.value} />
    </div>
  );
}

/** What a spreadsheet does with so many readings, told before the file is written. */
function Rows({ pull, form }: { readonly pull: KeptPull; readonly form: PullForm }) {
  const text = words.value.exchange;
  if (form === 'json' || form === 'json-ld' || form === 'original') return null;
  const files = splitForSpreadsheet(pull.readingCount, rowsBesideReadings(pull)).length;
  if (files === 1) return null;
  const count = number(pull.readingCount);
  return (
    <p id="pull-rows">
      {form === 'plain' ? text.cutOffBySpreadsheet(count) : text.splitForSpreadsheet(count, number(files))}
    </p>
  );
}

const nameOf = ({ specimenName }: KeptPull): string =>
  specimenName.replace(/[^\p{L}\p{N}._-]+/gu, '-').slice(0, 60);

/** What the imported file was called, without the folders before it. */
function nameOfFile({ source }: KeptPull): string | null {
  const name = source.kind === 'imported' ? source.file.split(/[\\/]/).at(-1) : undefined;
  return name === undefined || name === '' ? null : name.slice(-NAME_LENGTH_MAX);
}

async function writeData(pull: KeptPull, form: PullForm): Promise<void> {
  const place = await writing.run(() =>
    request('window.choose-save-path', {
      kind: KIND[form] ?? 'curve',
      suggestedName:
        (form === 'original' ? nameOfFile(pull) : null) ?? `${nameOf(pull)}.${END[form] ?? 'csv'}`,
    }),
  );
  const to = place?.path ?? null;
  if (to === null) return;
  exchangeProgress.value = null;
  isWriting.value = true;
  const done = await writing.run(() => request('archive.export', { pullId: pull.pullId, to, form }));
  isWriting.value = false;
  if (done === null) return;
  const { archive } = words.value;
  const count = number(done.readingCount);
  exportedPull.value = null;
  say(
    form === 'original'
      ? words.value.exchange.exportedOriginal(done.path)
      : done.parts.length === 0
        ? archive.exported(done.path, count)
        : archive.exportedParts(done.path, count, number(done.parts.length)),
  );
}

async function writePicture(pull: KeptPull, draw: () => Drawing, form: PictureForm): Promise<void> {
  if (await savePicture(writing, draw, form, nameOf(pull))) exportedPull.value = null;
}

/** The curve as the overlay draws one alone; where there is none, what says why. */
async function drawnCurve(
  { pullId }: KeptPull,
  form: PullPlotForm,
): Promise<{ readonly draw: () => Drawing } | { readonly why: ToldWhenDrawn }> {
  const read = await readPull(pullId, {
    room: () => OVERLAY_READINGS_MAX,
    isWanted: () => exportedPull.value?.pullId === pullId,
    onNamed: () => undefined,
  });
  if (!read.ok) return { why: read.why };
  const laidNow = () =>
    laidCurves([read.pull], {
      ...{ form, alignment: { kind: 'as-recorded' } },
      ...{ system: units.value, words: words.value },
    });
  if (laidNow().curves.length === 0)
    return { why: () => laidNow().notes.get(pullId) ?? words.value.look.noCurve };
  const draw = (): Drawing => {
    // Values at its marks are written with the curve.
    const { curves } = laidNow();
    return curvePlot(
      overlayPlot({
        widthMm: PICTURE_WIDTH_MM,
        heightMm: pictureHeightMm(curves.length),
        title: words.value.look.forms[form],
        curves,
        penOf: () => 0,
        chosen: pullId,
        range: wholeRange(curves),
        decimalSign: decimalSign(language.value),
        originMarks: originMarks(words.value),
        onScreen: false,
      }),
    );
  };
  return { draw };
}
