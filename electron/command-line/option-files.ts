/** Files behind the options of an evaluation: calibration tables, a blank run, options as JSON; each with its hash. */
import { createHash } from 'node:crypto';
import { closeSync, openSync, readSync } from 'node:fs';
import { basename } from 'node:path';
import { TABLE_POINTS_MAX, evaluationOptions } from '../../core/contract/evaluation-options.ts';
import type { OptionSource } from '../../core/contract/evaluation-requests.ts';
import { type CompliancePoint, compliancePoints } from '../../core/evaluation/blank-run.ts';
import { readCalibration } from '../../core/evaluation/calibration-file.ts';
import type { Corrections, EvaluationOptions } from '../../core/results/evaluation.ts';
import { shapeFaults } from '../../core/shape-faults.ts';
import { readCurveFile, readJsonFile, readTextFile } from './input-files.ts';
import type { BlankRunOfPull } from './blank-run-asked.ts';
import { InputError } from './verb.ts';

/** Throws an InputError that names the file and the field. */
export function optionsFile(path: string): { options: EvaluationOptions; sources: OptionSource[] } {
  const json = readJsonFile(path, 'options file');
  const checked = evaluationOptions.safeParse(json);
  if (checked.success) return { options: checked.data, sources: [sourceOf('options', path)] };
  const [first] = shapeFaults(checked.error.issues, json, { whole: 'The options' });
  throw new InputError(
    'options-wrong',
    `${path}: ${first?.sentence ?? 'The options are not complete; correct them there.'}`,
    first === undefined || first.field === '' ? 'options' : first.field,
  );
}

/** One table for the force and one for the extension at most. */
export function calibrationFiles(paths: readonly string[]): {
  tables: Pick<Corrections, 'forceTable' | 'extensionTable'>;
  sources: OptionSource[];
} {
  const read = paths.map((path) => ({ path, ...calibrationFile(path) }));
  const of = (quantity: 'force' | 'length') => read.filter((one) => one.quantity === quantity);
  for (const twice of [of('force')[1], of('length')[1]])
    if (twice !== undefined)
      throw new InputError(
        'calibration-twice',
        `${twice.path}: this is a second calibration table of ${twice.quantity === 'force' ? 'the force' : 'the extension'}; give one.`,
        'calibration',
      );
  const [force] = of('force');
  const [extension] = of('length');
  return {
    tables: {
      ...(force === undefined ? {} : { forceTable: force.points }),
      ...(extension === undefined ? {} : { extensionTable: extension.points }),
    },
    sources: read.map(({ path, quantity }) =>
      sourceOf(`calibration table of the ${quantity === 'force' ? 'force' : 'extension'}`, path),
    ),
  };
}

export function calibrationFile(path: string) {
  const outcome = readCalibration(readTextFile(path, 'calibration table'));
  if (!outcome.ok) throw new InputError('calibration-wrong', `${path}: ${outcome.sentence}`, 'calibration');
  const { points } = outcome;
  const unsorted = points.findIndex(
    (point, i) => i > 0 && !(point.shown > (points[i - 1]?.shown ?? Infinity)),
  );
  const wrong =
    points.length < 2 || points.length > TABLE_POINTS_MAX
      ? `The table has ${String(points.length)} points; it needs 2 to ${String(TABLE_POINTS_MAX)}.`
      : unsorted > 0
        ? `What the readout showed does not grow at point ${String(unsorted + 1)}; put the points in rising order, each once.`
        : null;
  if (wrong !== null) throw new InputError('calibration-wrong', `${path}: ${wrong}`, 'calibration');
  return outcome;
}

export function blankRunFile(path: string): {
  points: readonly CompliancePoint[];
  source: OptionSource;
} {
  const outcome = compliancePoints(readCurveFile(path).curve);
  if (!outcome.ok) throw new InputError('blank-run-wrong', `${path}: ${outcome.sentence}`, 'compliance');
  return { points: outcome.points, source: sourceOf(BLANK_RUN, path) };
}

export function blankRunPulled({ points, name, sha256 }: BlankRunOfPull): ReturnType<typeof blankRunFile> {
  return { points, source: { what: BLANK_RUN, name, sha256 } };
}

const BLANK_RUN = 'blank run';
const PIECE_BYTES = 1_048_576;

/** The name without its folders, which say nothing elsewhere, and the hash of the bytes. */
function sourceOf(what: string, path: string): OptionSource {
  const hash = createHash('sha256');
  const file = openSync(path, 'r');
  try {
    const buffer = new Uint8Array(PIECE_BYTES);
    for (let got = readSync(file, buffer); got > 0; got = readSync(file, buffer))
      hash.update(buffer.subarray(0, got));
  } finally {
    closeSync(file);
  }
  return { what, name: basename(path).slice(0, 300), sha256: hash.digest('hex') };
}
