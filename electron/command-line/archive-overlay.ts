/** `gaugemark archive overlay ID… [--difference] --svg|--pdf FILE`, `archive export ID --svg|--pdf FILE`: curves of kept pulls as the window draws them. */
import type { Alignment } from '../../core/curve/align.ts';
import { alignmentLoad } from '../../core/drawing/alignment-load.ts';
import { curvePlot } from '../../core/drawing/curve-plot.ts';
import { differencePlot, mostDifferent, namesApart } from '../../core/drawing/difference-plot.ts';
import type { Drawing } from '../../core/drawing/drawing.ts';
import {
  type AlignedCurve,
  OVERLAY_CURVES_MAX,
  OVERLAY_READINGS_MAX,
  aligned,
  overlaidCurve,
  overlayDifference,
  overlayPlot,
  wholeRange,
} from '../../core/drawing/overlay-plot.ts';
import { PICTURE_HEIGHT_MM, PICTURE_WIDTH_MM, pictureHeightMm } from '../../core/drawing/picture-size.ts';
import {
  PULL_PLOT_FORMS,
  type PlotUnits,
  type PullPlotForm,
  SI_PLOT_UNITS,
  US_PLOT_UNITS,
} from '../../core/drawing/pull-plot.ts';
import { pullKey, pullOfKey } from '../../core/pull/pull-elsewhere.ts';
import { ORIGIN_MARKS } from '../../core/pull/readings-origin.ts';
import { numberText } from '../../core/quantity/number-text.ts';
import { UNIT_SYSTEMS } from '../../core/quantity/display-unit.ts';
import { type VerbArguments, oneOf, takeArguments } from './arguments.ts';
import { drawablePull } from './drawable-pull.ts';
import { gatherValues } from './gather-values.ts';
import { PICTURE_FILE_OPTIONS, type PictureFile, pictureFile, writePicture } from './picture-file.ts';
import { pullNumber } from './pull-number.ts';
import { existingArchive, recorderAccess } from './recorder-access.ts';
import { EXIT_DONE, type ExitCode, InputError, type VerbIo } from './verb.ts';

/** Pulls that a difference is of. */
const DIFFERENCE_OF = 2;
/** Of a difference that is told. */
const DIGITS = 4;
const ALIGNMENTS = ['start', 'load', 'zero', 'as-recorded'] as const;

export const ARCHIVE_OVERLAY_USAGE =
  'gaugemark archive overlay ID… --archive FILE [--with FILE#ID …] --svg FILE|--pdf FILE [--paper A4|Letter] [--axes WORD] [--align WORD] [--load QUANTITY] [--difference] [--units si|us] [--json]';
export const EXPORT_PICTURE_USAGE =
  'gaugemark archive export ID --archive FILE --svg FILE|--pdf FILE [--paper A4|Letter] [--axes WORD] [--units si|us] [--json]';

const PICTURE_HELP = `           A PDF is one page across; the same pictures as PNG are saved in the window alone
  --axes WORD               ${PULL_PLOT_FORMS.join(', ')} (default load-extension)`;

export const ARCHIVE_OVERLAY_HELP = `  overlay  curves of several pulls in one picture, told apart by dash, marker and colour; a pull that can't be drawn or
           aligned is told. --with FILE#ID adds a pull of another archive (of another year for example), as often as
           there are such. --difference draws what the first of two has more than the second instead.
${PICTURE_HELP}
  --align WORD              ${ALIGNMENTS.join(', ')} (default start); zero is that of the elastic line, and at
                            load each curve first reaches --load "20 kN" (or "150 MPa" where stress is drawn)`;
/** Of a picture of one pull too. */
export const EXPORT_PICTURE_HELP = `           --svg or --pdf draws its curve, with words at its marks.
${PICTURE_HELP}`;

const PICTURE_OPTIONS = {
  ...PICTURE_FILE_OPTIONS,
  archive: { type: 'string' },
  axes: { type: 'string' },
  units: { type: 'string' },
  json: { type: 'boolean' },
} as const;
/** `export` says with --out where anything else of a pull goes. */
const EXPORT_OPTIONS = { ...PICTURE_OPTIONS, out: { type: 'string' } } as const;
const OVERLAY_OPTIONS = {
  ...PICTURE_OPTIONS,
  with: { type: 'string', multiple: true },
  align: { type: 'string' },
  load: { type: 'string' },
  difference: { type: 'boolean' },
} as const;

/** A pull and the archive that it is in. */
interface Named {
  readonly path: string;
  readonly pullId: number;
}

interface Picture {
  readonly named: readonly Named[];
  readonly file: PictureFile;
  readonly form: PullPlotForm;
  readonly units: PlotUnits;
  readonly alignment: Alignment;
  /** Of the two, in place of both. */
  readonly isDifference: boolean;
}

export async function archiveOverlay(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const gathered = gatherValues(args, OVERLAY_OPTIONS, { oneEach: true });
  const count = gathered.filter((arg) => !arg.startsWith('-')).length;
  const given = takeArguments(
    gathered,
    OVERLAY_OPTIONS,
    Array.from({ length: Math.max(1, count) }, () => 'The number of a pull'),
    'archive',
  );
  const picture = pictureOf(given);
  const alignment = alignmentOf(given, picture);
  const own = existingArchive(given.text('archive'));
  const all = [
    ...given.positionals.map((text) => ({ path: own, pullId: pullNumber(text, 'ID') })),
    ...given.texts('with').map(namedElsewhere),
  ];
  const named = [...new Map(all.map((one) => [`${one.path}#${String(one.pullId)}`, one])).values()];
  if (named.length > OVERLAY_CURVES_MAX)
    throw new InputError(
      'too-many-curves',
      `${String(named.length)} pulls, at most ${String(OVERLAY_CURVES_MAX)} are laid over each other; name fewer.`,
      'ID',
    );
  const isDifference = given.has('difference');
  if (isDifference && named.length !== DIFFERENCE_OF)
    throw new InputError(
      'difference-of-two',
      `--difference is that of two pulls, the first less the second; ${named.length === 1 ? 'one is' : `${String(named.length)} are`} named.`,
      'difference',
    );
  return drawn({ ...picture, alignment, named, isDifference }, given, io);
}

/** "shop-2024.gaugemark#12" */
function namedElsewhere(text: string): Named {
  const at = text.lastIndexOf('#');
  if (at < 1)
    throw new InputError(
      'option-value-wrong',
      `--with names a pull of another archive, as FILE#ID, for example --with shop-2024.gaugemark#12; ${text.slice(0, 200)} does not.`,
      'with',
    );
  return { path: existingArchive(text.slice(0, at)), pullId: pullNumber(text.slice(at + 1), 'with') };
}

export async function archiveExportPicture(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const given = takeArguments(
    gatherValues(args, EXPORT_OPTIONS, { oneEach: true }),
    EXPORT_OPTIONS,
    ['The number of the pull'],
    'archive',
  );
  const named = [
    { path: existingArchive(given.text('archive')), pullId: pullNumber(given.positionals[0], 'ID') },
  ];
  return drawn(
    { ...pictureOf(given), alignment: { kind: 'as-recorded' }, named, isDifference: false },
    given,
    io,
  );
}

function pictureOf(given: VerbArguments): Pick<Picture, 'file' | 'form' | 'units'> {
  const file = pictureFile(given, given.text('out'));
  if (file === undefined)
    throw new InputError(
      'option-missing',
      '--svg FILE or --pdf FILE is missing: where the picture is to be written.',
      'svg',
    );
  return {
    file,
    form: oneOf('axes', given.text('axes'), PULL_PLOT_FORMS) ?? 'load-extension',
    units: oneOf('units', given.text('units'), UNIT_SYSTEMS) === 'us' ? US_PLOT_UNITS : SI_PLOT_UNITS,
  };
}

function alignmentOf(given: VerbArguments, { form, units }: Pick<Picture, 'form' | 'units'>): Alignment {
  const word = oneOf('align', given.text('align'), ALIGNMENTS) ?? 'start';
  const typed = given.text('load');
  if (word !== 'load') {
    if (typed !== undefined)
      throw new InputError(
        'options-exclude',
        '--load belongs to --align load; add it, or leave --load out.',
        'load',
      );
    return { kind: word === 'zero' ? 'elastic-zero' : word };
  }
  const load = alignmentLoad(typed ?? '', form, units);
  if (load === null)
    throw new InputError(
      'option-value-wrong',
      `--align load needs a ${form === 'stress-strain' ? 'stress, for example --load "150 MPa"' : 'load, for example --load "20 kN"'}.`,
      'load',
    );
  return { kind: 'load', load };
}

interface LeftOut extends Named {
  readonly name: string;
  readonly reason: string;
}

async function drawn(picture: Picture, given: VerbArguments, io: VerbIo): Promise<ExitCode> {
  const paths = [...new Set(picture.named.map(({ path }) => path))];
  const { curves, leftOut } = await curvesOf(paths, picture, io);
  const notAligned = curves.flatMap((curve) =>
    curve.notAligned === null
      ? []
      : [{ ...fromKey(curve, paths), name: curve.name, reason: curve.notAligned }],
  );
  // Of one archive every number says enough.
  const where = ({ path }: Named): { archive?: string } => (paths.length === 1 ? {} : { archive: path });
  const lineOf = (one: LeftOut): string =>
    `pull ${String(one.pullId)} ${one.name}${paths.length === 1 ? '' : ` of ${one.path}`}: ${one.reason}`;
  const listed = (all: readonly LeftOut[]): object[] =>
    all.map((one) => ({ ...where(one), pullId: one.pullId, name: one.name, reason: one.reason }));
  if (!given.has('json')) {
    for (const one of leftOut) io.err(`not drawn: ${lineOf(one)}`);
    for (const one of notAligned) io.err(`stands as recorded: ${lineOf(one)}`);
  }
  const [first] = curves;
  if (first === undefined)
    throw new InputError(
      'nothing-to-draw',
      `There is nothing to draw. ${leftOut[0] === undefined ? '' : lineOf(leftOut[0])}`,
      'ID',
    );
  const difference = picture.isDifference ? differenceDrawn(curves, leftOut.map(lineOf), paths) : null;
  const drawing = difference?.drawing ?? drawingOf(curves, picture, paths);
  const bytes = await writePicture(drawing, picture.file, io.err);
  if (given.has('json'))
    io.out(
      JSON.stringify({
        path: picture.file.path,
        bytes,
        axes: picture.form,
        drawn: curves.map((curve) => {
          const one = fromKey(curve, paths);
          return {
            ...where(one),
            pullId: one.pullId,
            specimen: curve.name,
            shift: curve.shift,
            ...(curve.origin === undefined ? {} : { readings: curve.origin }),
          };
        }),
        notAligned: listed(notAligned),
        leftOut: listed(leftOut),
        ...(difference === null ? {} : { difference: difference.said }),
      }),
    );
  else if (difference !== null) {
    const { of, most, remark } = difference.said;
    const largest =
      most === null ? '' : `, largest ${numberText(most.y, DIGITS)} at ${numberText(most.x, DIGITS)}`;
    if (remark !== null) io.err(remark);
    io.out(`the difference ${of} drawn to ${picture.file.path}${largest}`);
  } else
    io.out(
      `${String(curves.length)} ${curves.length === 1 ? 'curve' : 'curves'} drawn to ${picture.file.path}`,
    );
  return EXIT_DONE;
}

/** A curve goes by a number that holds its archive too. */
const keyOf = ({ path, pullId }: Named, paths: readonly string[]): number =>
  pullKey({ archive: paths.indexOf(path), pullId });

function fromKey({ pullId: key }: AlignedCurve, paths: readonly string[]): Named {
  const { archive, pullId } = pullOfKey(key);
  return { path: paths[archive] ?? '', pullId };
}

/** Archive by archive, none open longer than that takes; the curves in the order in which they were named. */
async function curvesOf(
  paths: readonly string[],
  { named, form, units, alignment }: Picture,
  io: VerbIo,
): Promise<{ readonly curves: readonly AlignedCurve[]; readonly leftOut: readonly LeftOut[] }> {
  const curves = new Map<Named, AlignedCurve>();
  const leftOut: LeftOut[] = [];
  let room = OVERLAY_READINGS_MAX;
  for (const path of paths) {
    const access = await recorderAccess({ archive: path, toRecord: false, note: io.err });
    try {
      for (const one of named.filter((its) => its.path === path)) {
        const found = await drawablePull(access, one.pullId, room);
        if (!found.ok) {
          leftOut.push({ ...one, name: found.name, reason: found.reason });
          continue;
        }
        room -= found.pull.curve.length;
        const pull = { ...found.pull, pullId: keyOf(one, paths) };
        const outcome = overlaidCurve(pull, form, units);
        if (outcome.ok) curves.set(one, aligned(outcome.curve, alignment));
        else leftOut.push({ ...one, name: found.pull.name, reason: outcome.reason });
      }
    } finally {
      await access.end();
    }
  }
  return { curves: named.flatMap((one) => curves.get(one) ?? []), leftOut };
}

/** As the window saves it: the first one above the others. */
function drawingOf(
  curves: readonly AlignedCurve[],
  { form, named }: Picture,
  paths: readonly string[],
): Drawing {
  const keys = named.map((one) => keyOf(one, paths));
  return curvePlot(
    overlayPlot({
      widthMm: PICTURE_WIDTH_MM,
      heightMm: pictureHeightMm(curves.length),
      title: form,
      curves,
      penOf: (key) => keys.indexOf(key),
      chosen: curves[0]?.pullId ?? null,
      range: wholeRange(curves),
      decimalSign: '.',
      originMarks: ORIGIN_MARKS,
      onScreen: false,
    }),
  );
}

interface DifferenceDrawn {
  readonly drawing: Drawing;
  /** In the units of the picture. */
  readonly said: {
    readonly of: string;
    readonly most: { readonly x: number; readonly y: number } | null;
    readonly remark: string | null;
  };
}

/** `lacking`: why one of the two isn't there. Throws an InputError where there is no difference. */
function differenceDrawn(
  curves: readonly AlignedCurve[],
  lacking: readonly string[],
  paths: readonly string[],
): DifferenceDrawn {
  const [first, second] = curves;
  if (first === undefined || second === undefined)
    throw new InputError('nothing-to-draw', `There is no difference. ${lacking.join(' ')}`, 'difference');
  const outcome = overlayDifference(first, second);
  if (!outcome.ok) throw new InputError('nothing-to-draw', outcome.reason, 'align');
  const { x, y, remark } = outcome.difference;
  const of = namesApart(first, second, (curve) => {
    const { path, pullId } = fromKey(curve, paths);
    return paths.length === 1 ? `pull ${String(pullId)}` : `pull ${String(pullId)} of ${path}`;
  }).join(' less ');
  const at = mostDifferent(y);
  const drawing = curvePlot(
    differencePlot({
      widthMm: PICTURE_WIDTH_MM,
      heightMm: PICTURE_HEIGHT_MM,
      title: of,
      first,
      second,
      difference: outcome.difference,
      range: wholeRange([first, second]).x,
      decimalSign: '.',
      figure: (value) => numberText(value, DIGITS),
      originMarks: ORIGIN_MARKS,
      onScreen: false,
    }),
  );
  return { drawing, said: { of, most: at < 0 ? null : { x: x[at] ?? 0, y: y[at] ?? 0 }, remark } };
}
