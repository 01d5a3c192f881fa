/**
 * Options of an evaluation as a row holds them, under the names that they have today. Rows are never rewritten, so
 * what was kept under an earlier name is read by it, here and nowhere else.
 */
import { z } from 'zod';
import { evaluationOptions } from '../contract/evaluation-options.ts';
import { sqlJson } from './sql.ts';

type Fields = Readonly<Record<string, unknown>>;

/** Names until form 8 of the archive, and those of today. */
const RENAMED: Readonly<Record<string, string>> = {
  totalExtensionsPercent: 'extensionsUnderLoadPercent',
  arcForm: 'sectionForm',
  elongationOn: 'convertElongation',
};
const RENAMED_MEASURING: Readonly<Record<string, string>> = {
  forceClass: 'readoutClass',
  forceUncertaintyPercent: 'readoutUncertaintyPercent',
  forceResolutionN: 'readoutResolutionN',
};
const RENAMED_CONVERSION: Readonly<Record<string, string>> = { rule: 'materialKind' };
/** Values that were renamed, by the field of today. */
const RENAMED_VALUES: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  sectionForm: { exact: 'arc', series: 'simplified' },
  materialKind: { 'iso-2566-1': 'carbon', 'iso-2566-2': 'austenitic' },
};

export const keptOptions = sqlJson(z.preprocess(underTodaysNames, evaluationOptions));

function underTodaysNames(kept: unknown): unknown {
  if (!isFields(kept)) return kept;
  const { measuring, convertElongation, ...rest } = renamed(kept, RENAMED);
  return {
    ...rest,
    ...(measuring === undefined ? {} : { measuring: renamed(measuring, RENAMED_MEASURING) }),
    ...(convertElongation === undefined
      ? {}
      : { convertElongation: renamed(convertElongation, RENAMED_CONVERSION) }),
  };
}

function renamed(kept: unknown, names: Readonly<Record<string, string>>): Fields {
  if (!isFields(kept)) return { kept };
  return Object.fromEntries(
    Object.entries(kept).map(([before, value]) => {
      const name = names[before] ?? before;
      const values = RENAMED_VALUES[name];
      return [name, typeof value === 'string' ? (values?.[value] ?? value) : value];
    }),
  );
}

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
