/** Another plan for the file of an imported pull: `--columns "time_s;force_lbf"`, `--first-row 3`, `--decimal-sign ,`. */
import { choicesOfPlan } from '../../core/exchange/import/choices-of-plan.ts';
import type { ImportPlan } from '../../core/exchange/import/import-plan.ts';
import { oneOf, type VerbArguments } from './arguments.ts';
import type { RecorderAccess } from './recorder-access.ts';
import { InputError } from './verb.ts';

export const PLAN_FLAGS = {
  columns: { type: 'string' },
  'first-row': { type: 'string' },
  'decimal-sign': { type: 'string' },
} as const;

/**
 * What is not said stays as it was imported. Undefined where nothing is said. Rejects with an InputError.
 *
 * @param say gets what is left out without having been named, and what can't be told from the file.
 */
export async function planAsked(
  given: VerbArguments,
  access: Pick<RecorderAccess, 'ask'>,
  pullId: number,
  say: (line: string) => void,
): Promise<ImportPlan | undefined> {
  const columnsText = given.text('columns');
  const firstRowLine = firstRow(given.text('first-row'));
  const sign = decimalSign(given.text('decimal-sign'));
  if (columnsText === undefined && firstRowLine === undefined && sign === undefined) return undefined;
  const { plan } = await access.ask('pull.preview-plan', { pullId });
  const { groupSign, ...before } = choicesOfPlan(plan);
  const asked = access.ask('pull.preview-plan', {
    pullId,
    choices: {
      ...before,
      // What stood between thousands may be the decimal sign now.
      ...(groupSign === undefined || groupSign === sign ? {} : { groupSign }),
      ...(columnsText === undefined ? {} : { columnsText }),
      ...(firstRowLine === undefined ? {} : { firstRowLine }),
      ...(sign === undefined ? {} : { decimalSign: sign }),
    },
  });
  const { proposal } = await asked.catch((error: unknown) => {
    throw withFlagNamed(error);
  });
  if (proposal.plan !== null && proposal.readyWithoutAsking) {
    for (const note of proposal.notes) say(note);
    return proposal.plan;
  }
  throw new InputError(
    'import-columns-unclear',
    `The table in the file is not beyond doubt: ${proposal.questions.join(' ')} Name each column in order with --columns.`,
    'columns',
  );
}

/** The window has a field for it under the same sentence; here it is said what to type. */
export function withFlagNamed(error: unknown): unknown {
  if (!(error instanceof InputError) || !error.code.startsWith('import-decimal-')) return error;
  return new InputError(
    error.code,
    `${error.message} It is said with --decimal-sign . or --decimal-sign ,`,
    'decimal-sign',
    error.detail,
  );
}

/** The sign of `--decimal-sign`. Throws an InputError. */
export const decimalSign = (text: string | undefined): '.' | ',' | undefined =>
  oneOf('decimal-sign', text, ['.', ',']);

/** The line of `--first-row`, from 1. Throws an InputError. */
export function firstRow(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  if (/^[1-9]\d{0,8}$/.test(text)) return Number(text);
  throw new InputError(
    'option-value-wrong',
    `--first-row "${text.slice(0, 40)}" must be the number of a line, from 1 on.`,
    'first-row',
  );
}
