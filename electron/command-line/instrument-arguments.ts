/** An instrument and a calibration as they are given on the command line: in a file, by options, or by both. */
import type { z } from 'zod';
import {
  calibrationForm,
  type CalibrationForm,
  type CorrectionTable,
} from '../../core/instruments/calibration.ts';
import { INSTRUMENT_KINDS, type InstrumentForm, instrumentForm } from '../../core/instruments/instrument.ts';
import { shapeFaults } from '../../core/shape-faults.ts';
import { type VerbArguments, oneOf } from './arguments.ts';
import { readJsonFile } from './input-files.ts';
import { calibrationFile } from './option-files.ts';
import { InputError } from './verb.ts';

export const INSTRUMENT_OPTIONS = {
  kind: { type: 'string' },
  name: { type: 'string' },
  serial: { type: 'string' },
  description: { type: 'string' },
  resolution: { type: 'string' },
  class: { type: 'string' },
  from: { type: 'string' },
  to: { type: 'string' },
  notes: { type: 'string' },
} as const;

export const CALIBRATION_OPTIONS = {
  certificate: { type: 'string' },
  date: { type: 'string' },
  due: { type: 'string' },
  by: { type: 'string' },
  table: { type: 'string' },
} as const;

type Given = Pick<VerbArguments, 'text'>;

/** What a file says, and over it what the options say. `before`: what a correction begins from. */
export function instrumentFrom(
  given: Given,
  path: string | undefined,
  before: InstrumentForm | null,
): InstrumentForm {
  const said = {
    ...(before ?? {}),
    ...fileObject(path, 'instrument'),
    ...present({
      kind: oneOf('kind', given.text('kind'), INSTRUMENT_KINDS),
      name: given.text('name'),
      serialNumber: given.text('serial'),
      description: given.text('description'),
      resolution: given.text('resolution'),
      class: given.text('class'),
      notes: given.text('notes'),
      range: rangeFrom(given),
    }),
  };
  return checked(said, instrumentForm, 'The instrument', path, {
    kind: 'kind',
    name: 'name',
    serialNumber: 'serial',
    'range.from': 'from',
    'range.to': 'to',
  });
}

export function calibrationFrom(
  given: Given,
  path: string | undefined,
  derived: Partial<CalibrationForm> = {},
): CalibrationForm {
  const table = given.text('table');
  const said = {
    ...derived,
    ...fileObject(path, 'calibration'),
    ...present({
      certificateNumber: given.text('certificate'),
      calibratedOn: given.text('date'),
      dueOn: given.text('due'),
      by: given.text('by'),
      class: given.text('class'),
      notes: given.text('notes'),
      verifiedRange: rangeFrom(given),
      correction: table === undefined ? undefined : correctionFrom(table),
    }),
  };
  return checked(said, calibrationForm, 'The calibration', path, {
    certificateNumber: 'certificate',
    calibratedOn: 'date',
    dueOn: 'due',
    'verifiedRange.from': 'from',
    'verifiedRange.to': 'to',
  });
}

function rangeFrom(given: Given): { from: string; to: string } | undefined {
  const [from, to] = [given.text('from'), given.text('to')];
  if (from === undefined && to === undefined) return undefined;
  if (to === undefined)
    throw new InputError('option-missing', '--from is given without --to; a range has two ends.', 'to');
  return { from: from ?? '0', to };
}

function correctionFrom(path: string): CorrectionTable {
  const { quantity, points } = calibrationFile(path);
  return {
    unit: quantity === 'force' ? 'N' : 'mm',
    points: points.map(({ shown, actual }) => ({ shown: String(shown), actual: String(actual) })),
  };
}

function fileObject(path: string | undefined, what: string): object {
  if (path === undefined) return {};
  const json = readJsonFile(path, `${what} file`);
  if (typeof json !== 'object' || json === null || Array.isArray(json))
    throw new InputError(`${what}-wrong`, `${path}: the ${what} must be an object with named fields.`);
  return json;
}

/** Throws an InputError that names the option, or the file and its field. */
function checked<Schema extends z.ZodType>(
  said: object,
  schema: Schema,
  whole: string,
  path: string | undefined,
  optionOf: Readonly<Record<string, string>>,
): z.output<Schema> {
  const outcome = schema.safeParse(said);
  if (outcome.success) return outcome.data;
  const [first] = shapeFaults(outcome.error.issues, said, { whole, schema });
  const option = path === undefined && first !== undefined ? optionOf[first.field] : undefined;
  const sentence = first?.sentence ?? `${whole} is not complete.`;
  throw new InputError(
    `${whole.slice(4)}-wrong`,
    path !== undefined
      ? `${path}: ${sentence}`
      : option === undefined
        ? sentence
        : `--${option}: ${sentence.replace(/^[\w.[\]]+: /, '')}`,
    option ?? first?.field,
  );
}

const present = (fields: Readonly<Record<string, unknown>>): object =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
