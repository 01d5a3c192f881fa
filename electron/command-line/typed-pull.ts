/** `gaugemark pull --typed`: a pull on a frame without a port, its values typed from the display. */
import { UNIT_SYSTEMS } from '../../core/quantity/display-unit.ts';
import { type TypedValues, typedValues } from '../../core/pull/typed-values.ts';
import { typedDoubt } from '../../core/pull/typed-plausibility.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import type { SpecimenFile } from '../../core/specimen/specimen-file.ts';
import { type VerbArguments, oneOf } from './arguments.ts';
import { tellEarlierPull } from './earlier-pull.ts';
import { keptAndEvaluated, pullAnswer } from './pull-document.ts';
import { recorderAccess } from './recorder-access.ts';
import { EXIT_DONE, type ExitCode, InputError, type VerbIo } from './verb.ts';

/** Options of `pull` that need a port. */
const WITH_PORT = ['port', 'readout', 'simulated', 'pace', 'seed', 'until', 'trigger', 'tail'] as const;
const TYPED_ONLY = ['load', 'yield-load', 'elongation', 'sure'] as const;

export const TYPED_FLAGS = {
  typed: { type: 'boolean' },
  load: { type: 'string' },
  'yield-load': { type: 'string' },
  elongation: { type: 'string' },
  sure: { type: 'boolean' },
} as const;

export const TYPED_USAGE = `  --typed                a frame without a port: what its display showed is typed; no curve, and marked as typed everywhere
  --load FORCE           with --typed: the peak load as shown, for example "66.5 kip" or "295 kN"
  --yield-load FORCE     with --typed: the load at which the display stood still at yielding, where it was seen
  --elongation PERCENT   with --typed: elongation after fracture, for example "22 %" (left out: from finalGaugeLength)
  --sure                 with --typed: an improbable value has been looked at again and is right`;

/** Said where one of its options was given without it. */
export function refuseTypedOptions(given: VerbArguments): void {
  const lonely = TYPED_ONLY.find((option) => given.has(option) || given.text(option) !== undefined);
  if (lonely !== undefined)
    throw new InputError(
      'option-lonely',
      `--${lonely} belongs to --typed, a pull whose values are typed from the display; add --typed or leave it out.`,
      lonely,
    );
}

export interface TypedOrder {
  readonly specimen: SpecimenFile;
  readonly operator: string | undefined;
  /** Of the register, by number. */
  readonly instruments: readonly number[];
}

export async function pullTyped(
  given: VerbArguments,
  { specimen, operator, instruments }: TypedOrder,
  io: VerbIo,
): Promise<ExitCode> {
  const typed = checkedValues(given);
  const units = oneOf('units', given.text('units'), UNIT_SYSTEMS);
  refuseDoubtful(typed, specimen, given.has('sure'));
  const access = await recorderAccess({ archive: given.text('archive'), toRecord: true, note: io.err });
  try {
    const notes = await tellEarlierPull(access, specimen.id, io.err);
    const by = operator === undefined ? {} : { by: operator };
    const { specimenId } = await access.ask('specimen.save', { specimen, ...by });
    const { pullId } = await access.ask('pull.type', {
      specimenId,
      typed,
      sure: given.has('sure'),
      instruments: [...instruments],
      ...(operator === undefined ? {} : { operator }),
    });
    const kept = await keptAndEvaluated(access, pullId);
    io.out(await pullAnswer(access, kept, { json: given.has('json'), working: false, units, notes }));
    return EXIT_DONE;
  } finally {
    await access.end();
  }
}

function checkedValues(given: VerbArguments): TypedValues {
  const withPort = WITH_PORT.find((option) => given.text(option) !== undefined);
  if (withPort !== undefined)
    throw new InputError(
      'options-exclude',
      `--${withPort} is for a readout at a port, and --typed for a frame without one; give one of them.`,
      withPort,
    );
  const load = given.text('load');
  if (load === undefined)
    throw new InputError(
      'option-missing',
      '--load FORCE is missing: the peak load as the display showed it, for example --load "66.5 kip".',
      'load',
    );
  const yieldLoad = given.text('yield-load');
  const elongation = given.text('elongation');
  const read = typedValues.safeParse({
    load,
    ...(yieldLoad === undefined ? {} : { yieldLoad }),
    ...(elongation === undefined ? {} : { elongation }),
  });
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  const option = issue?.path[0] === 'yieldLoad' ? 'yield-load' : String(issue?.path[0] ?? 'load');
  throw new InputError('option-value-wrong', `--${option}: ${issue?.message ?? 'it can’t be read.'}`, option);
}

/** Before anything is kept: the specimen too would otherwise stay behind. */
function refuseDoubtful(typed: TypedValues, file: SpecimenFile, sure: boolean): void {
  const read = readSpecimen(file);
  const doubt = read.ok ? typedDoubt(typed, read.specimen) : null;
  if (doubt === null || (doubt.kind === 'asked' && sure)) return;
  throw new InputError(
    doubt.kind === 'refused' ? 'typed-value-refused' : 'typed-value-asked',
    doubt.kind === 'refused' ? doubt.sentence : `${doubt.sentence} If it is, say so with --sure.`,
    doubt.field === 'yieldLoad' ? 'yield-load' : doubt.field,
  );
}
