/** Files that a verb is given: opened, bounded, checked; whatever is wrong becomes one sentence that names the file. */
import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs';
import type { z } from 'zod';
import { type ReadoutProfile, readoutProfile } from '../../core/contract/readout-profile.ts';
import type { Curve } from '../../core/curve/curve.ts';
import { CurveCsvReader } from '../../core/curve/read-csv.ts';
import type { ImportedReadings } from '../../core/contract/source.ts';
import { IMPORT_HEAD_BYTES } from '../../core/exchange/import/head-lines.ts';
import { readingsSaidIn } from '../../core/exchange/source-words.ts';
import type { ReadingsOrigin } from '../../core/pull/readings-origin.ts';
import { CURVE_FILE_BYTES_MAX, JSON_FILE_BYTES_MAX } from '../../core/limits.ts';
import { sizesOutsideRange } from '../../core/specimen/plausible-range.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import { type SpecimenFile, specimenFile } from '../../core/specimen/specimen-file.ts';
import type { Specimen } from '../../core/specimen/specimen.ts';
import { type Scenario, scenario } from '../../drivers/simulated-frame/scenario.ts';
import { shapeFaults } from '../../core/shape-faults.ts';
import { InputError } from './verb.ts';

const READ_BYTES = 1_048_576;

export interface CurveFile {
  readonly curve: Curve;
  readonly notes: readonly string[];
  /** What the file says of its own readings where no specimen gave them; null where it says nothing of the kind. */
  readonly origin: Extract<ReadingsOrigin, 'imported-simulated' | 'imported-replay'> | null;
}

/** Reads a curve from CSV, piece by piece. Throws an InputError. */
export function readCurveFile(path: string): CurveFile {
  return withFile(path, CURVE_FILE_BYTES_MAX, 'curve file', (file) => {
    const reader = new CurveCsvReader();
    const buffer = new Uint8Array(READ_BYTES);
    let said: ImportedReadings | null = null;
    for (let isHead = true; !reader.failed; isHead = false) {
      const got = readSync(file, buffer, 0, READ_BYTES, null);
      if (got === 0) break;
      if (isHead) said = readingsSaidIn(remarksAbove(buffer.subarray(0, got)));
      reader.push(buffer.subarray(0, got));
    }
    const outcome = reader.end();
    if (!outcome.ok) throw new InputError(outcome.fault.code, `${path}: ${outcome.fault.sentence}`, 'curve');
    return {
      curve: outcome.curve,
      notes: outcome.notes,
      origin: said === null ? null : `imported-${said}`,
    };
  });
}

/** The remarks that a file begins with, as far as they lie in its first bytes. */
function remarksAbove(bytes: Uint8Array): string[] {
  const lines = new TextDecoder().decode(bytes.subarray(0, IMPORT_HEAD_BYTES)).split(/\r\n|\n|\r/);
  const end = lines.findIndex((line) => !/^[\s"\uFEFF]*(?:#|$)/.test(line));
  return end === -1 ? lines : lines.slice(0, end);
}

/** Reads and checks a specimen file. Throws an InputError that names the file and the field. */
export function readSpecimenFile(path: string): Specimen {
  return checkedSpecimen(readJsonFile(path, 'specimen file'), path);
}

/**
 * The text form of a checked specimen, for those who keep it. Sizes that no such specimen has are told to `say` and
 * taken as they are: a file can't be asked. Throws an InputError.
 */
export function specimenToKeep(path: string, say: (line: string) => void): SpecimenFile {
  const json = readJsonFile(path, 'specimen file');
  for (const doubt of sizesOutsideRange(checkedSpecimen(json, path))) say(doubt);
  return specimenFile.parse(json);
}

/** Throws an InputError that names the file and the field. */
function checkedSpecimen(json: unknown, path: string): Specimen {
  const outcome = readSpecimen(json);
  if (outcome.ok) return outcome.specimen;
  const [first] = outcome.faults;
  const more = outcome.faults.length - 1;
  throw new InputError(
    'specimen-wrong',
    `${path}: ${first?.sentence ?? 'The specimen is not complete.'}${more > 0 ? ` (${String(more)} more ${more === 1 ? 'fault' : 'faults'} in this file.)` : ''}`,
    first === undefined || first.field === '' ? 'specimen' : first.field,
  );
}

/** Reads and checks a readout profile. Throws an InputError that names the file and the field. */
export function readProfileFile(path: string): ReadoutProfile {
  return checkedFile(path, 'readout profile', readoutProfile);
}

/** Reads and checks a scenario of the simulated frame. Throws an InputError that names the file and the field. */
export function readScenarioFile(path: string): Scenario {
  return checkedFile(path, 'scenario', scenario);
}

function checkedFile<Schema extends z.ZodType>(path: string, what: string, schema: Schema): z.output<Schema> {
  const json = readJsonFile(path, what);
  const checked = schema.safeParse(json);
  if (checked.success) return checked.data;
  const [first] = shapeFaults(checked.error.issues, json, { whole: `The ${what}`, schema });
  throw new InputError(
    `${what.replace(' ', '-')}-wrong`,
    `${path}: ${first?.sentence ?? `The ${what} is not complete; correct it there.`}`,
    first === undefined || first.field === '' ? undefined : first.field,
  );
}

/** Text of a bounded file. Throws an InputError where it is missing, huge, empty, or no UTF-8. */
export function readTextFile(path: string, what: string, form = 'text'): string {
  const bytes = withFile(path, JSON_FILE_BYTES_MAX, what, (file, size) => {
    const buffer = new Uint8Array(size);
    let filled = 0;
    while (filled < size) {
      const got = readSync(file, buffer, filled, size - filled, null);
      if (got === 0) break;
      filled += got;
    }
    return buffer.subarray(0, filled);
  });
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))
    throw new InputError('json-utf16', `${path}: the ${what} is UTF-16 text; save it again as UTF-8.`);
  const text = new TextDecoder().decode(bytes);
  if (text.trim() === '')
    throw new InputError('json-empty', `${path}: the ${what} is empty; write it as ${form}.`);
  return text;
}

/** Parses a bounded JSON file. Throws an InputError where it is missing, empty, huge, no text or no JSON. */
export function readJsonFile(path: string, what: string): unknown {
  const text = readTextFile(path, what, 'JSON');
  try {
    return JSON.parse(text) as unknown;
  } catch (error) {
    const where = error instanceof SyntaxError ? positionInWords(error.message, text) : '';
    throw new InputError(
      'json-wrong',
      `${path}: the ${what} is not JSON${where}; check quotes, commas and braces there.`,
    );
  }
}

/** ", line 3" from the position that the parser names, where it names one. */
function positionInWords(message: string, text: string): string {
  const position = /position (\d+)/.exec(message)?.[1];
  return position === undefined ? '' : `, line ${String(text.slice(0, Number(position)).split('\n').length)}`;
}

/** Opens a regular file of bounded size. Throws an InputError; closes the file in any case. */
function withFile<T>(
  path: string,
  bytesMax: number,
  what: string,
  use: (file: number, size: number) => T,
): T {
  let file: number;
  try {
    // Without O_NONBLOCK a named pipe would hold the program until somebody writes to it.
    file = openSync(path, constants.O_RDONLY | ((constants.O_NONBLOCK as number | undefined) ?? 0));
  } catch (error) {
    throw new InputError(
      'file-not-opened',
      `${path}: the ${what} can't be opened (${reasonWords(error)}); check path and permissions.`,
    );
  }
  try {
    const facts = fstatSync(file);
    if (!facts.isFile())
      throw new InputError(
        'file-not-regular',
        `${path}: this is no file but a folder or device; give the ${what}.`,
      );
    if (facts.size > bytesMax)
      throw new InputError(
        'file-too-large',
        `${path}: the ${what} has ${String(Math.ceil(facts.size / 1_048_576))} MiB; at most ${String(Math.floor(bytesMax / 1_048_576))} MiB are read; give the right file.`,
      );
    return use(file, facts.size);
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw new InputError(
      'file-not-read',
      `${path}: the ${what} can't be read (${reasonWords(error)}); check path and permissions.`,
    );
  } finally {
    closeSync(file);
  }
}

function reasonWords(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const words: Readonly<Record<string, string>> = {
    ENOENT: 'there is no such file',
    EACCES: 'no permission',
    EISDIR: 'it is a folder',
    ENOTDIR: 'a part of the path is no folder',
    EMFILE: 'too many files are open',
  };
  return words[code] ?? (code === '' ? 'unknown reason' : code);
}
