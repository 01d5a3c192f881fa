/** The choices by which a file is read as by a plan that is known: what a person goes on from. */
import { columnsTextOf } from './columns-text.ts';
import type { ImportPlan } from './import-plan.ts';
import type { ImportChoices } from './propose-import.ts';

/** Those of them that are said, without any that is not. */
export type SaidChoices = { readonly [K in keyof ImportChoices]: Exclude<ImportChoices[K], undefined> };

export function choicesOfPlan(plan: ImportPlan): SaidChoices {
  const { encoding, delimiter, decimalSign, groupSign, firstRowLine, cells } = plan;
  const said = Array.from(
    { length: cells },
    (_, cell) => plan.columns.find((one) => one.cell === cell) ?? null,
  );
  return {
    ...{ encoding, delimiter, decimalSign, firstRowLine },
    ...(groupSign === undefined ? {} : { groupSign }),
    columnsText: columnsTextOf(said),
  };
}
