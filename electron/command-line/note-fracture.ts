/** `gaugemark archive note-fracture --pull ID --broke WHERE …`: where and how a specimen broke, as it was seen. */
import { APPEARANCES, SOUNDNESS } from '../../core/acceptance/fracture.ts';
import { fractureOfNote } from '../../core/acceptance/fracture-of-note.ts';
import {
  DISCONTINUITIES_MAX,
  DISCONTINUITY_KINDS,
  type DiscontinuityKind,
  FRACTURE_MARKS,
} from '../../core/acceptance/fracture-details.ts';
import type { FractureNote } from '../../core/contract/record.ts';
import { standingNote } from '../../core/pull/standing-note.ts';
import { parseQuantity, quantityFaultSentence } from '../../core/quantity/parse-quantity.ts';
import { type VerbArguments, numberOption, oneOf, takeArguments } from './arguments.ts';
import { PLACE_WORDS, fracturePlaceFrom } from './fracture-place-argument.ts';
import { gatherValues } from './gather-values.ts';
import { pullNumber } from './pull-number.ts';
import { existingArchive, recorderAccess } from './recorder-access.ts';
import { SAID_OPTIONS, neededText, saidBy } from './said.ts';
import { EXIT_DONE, type ExitCode, InputError, type VerbIo } from './verb.ts';

/** Base metals of a joint, as many as a set names. */
const BASE_METALS_MAX = 10;

export const NOTE_FRACTURE_USAGE = `gaugemark archive note-fracture --pull ID --archive FILE --broke WHERE [--appearance WORD] [--fracture WORD]
          [--base-metal N] [--mark WORD] [--discontinuity "KIND SIZE"]… [--remarks TEXT] [--reason TEXT]
          [--operator NAME] [--json]`;

export const NOTE_FRACTURE_HELP = `  note-fracture
           where and how the specimen of a pull broke; no set judges it before. A second note corrects the first and
           needs --reason; the first stays.
             --broke WHERE             ${PLACE_WORDS}
             --appearance WORD         ${APPEARANCES.join(', ')}, or your own words
             --fracture WORD           ${SOUNDNESS.join(', ')}
             --base-metal N            which base metal broke, counted from 1 as the set names them
             --mark WORD               it broke at a ${FRACTURE_MARKS.join(' or ')}
             --discontinuity "KIND SIZE"
                                       "porosity 2.5 mm" or "crack"; ${DISCONTINUITY_KINDS.join(', ')}`;

const OPTIONS = {
  ...SAID_OPTIONS,
  archive: { type: 'string' },
  pull: { type: 'string' },
  broke: { type: 'string' },
  appearance: { type: 'string' },
  fracture: { type: 'string' },
  'base-metal': { type: 'string' },
  mark: { type: 'string' },
  discontinuity: { type: 'string', multiple: true },
  remarks: { type: 'string' },
  json: { type: 'boolean' },
} as const;

export async function noteFracture(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const given = takeArguments(gatherValues(args, OPTIONS), OPTIONS, [], 'archive');
  const pullId = pullNumber(given.text('pull'));
  const note = noteFrom(given);
  const access = await recorderAccess({
    archive: existingArchive(given.text('archive')),
    toRecord: true,
    note: io.err,
  });
  try {
    const before = standingNote((await access.ask('pull.get', { pullId })).fractureNotes);
    const correction =
      before === null
        ? {}
        : {
            supersedes: before.fractureNoteId,
            reason: neededText(
              given,
              'reason',
              `pull ${String(pullId)} has a note already (${before.note.place}); say why it is corrected`,
            ),
          };
    const kept = await access.ask('pull.note-fracture', { pullId, note, ...saidBy(given), ...correction });
    if (given.has('json')) io.out(JSON.stringify({ pullId, ...kept, note, ...correction }));
    else
      io.out(
        `Noted for pull ${String(pullId)}: ${[fractureOfNote(note).broke ?? note.place, note.appearance, note.soundness].filter((word) => word !== undefined).join(', ')}.${before === null ? '' : ' The note before stays beside it.'}`,
      );
    return EXIT_DONE;
  } finally {
    await access.end();
  }
}

function noteFrom(given: VerbArguments): FractureNote {
  const soundness = oneOf('fracture', given.text('fracture'), SOUNDNESS);
  const atMark = oneOf('mark', given.text('mark'), FRACTURE_MARKS);
  const baseMetal = numberOption('base-metal', given.text('base-metal'), { above: 0, max: BASE_METALS_MAX });
  if (baseMetal !== undefined && !Number.isInteger(baseMetal))
    throw new InputError('option-value-wrong', '--base-metal is a whole number: 1 or 2.', 'base-metal');
  const discontinuities = given.texts('discontinuity').map(discontinuityFrom);
  if (discontinuities.length > DISCONTINUITIES_MAX)
    throw new InputError(
      'option-value-wrong',
      `At most ${String(DISCONTINUITIES_MAX)} discontinuities are noted; tell the others in --remarks.`,
      'discontinuity',
    );
  const broke = given.text('broke');
  if (broke === undefined)
    throw new InputError('option-missing', `--broke WHERE is missing: ${PLACE_WORDS}.`, 'broke');
  const place = fracturePlaceFrom(broke);
  if (baseMetal !== undefined && place !== 'base-metal' && place !== 'heat-affected-zone')
    throw new InputError(
      'arguments-conflict',
      `--base-metal says which base metal broke, but it broke ${place}; leave it out.`,
      'base-metal',
    );
  const appearance = given.text('appearance')?.trim();
  const remarks = given.text('remarks')?.trim();
  return {
    place,
    ...(appearance === undefined || appearance === '' ? {} : { appearance }),
    ...(remarks === undefined || remarks === '' ? {} : { remarks }),
    ...(baseMetal === undefined ? {} : { baseMetal }),
    ...(atMark === undefined ? {} : { atMark }),
    ...(soundness === undefined ? {} : { soundness }),
    ...(discontinuities.length === 0 ? {} : { discontinuities }),
  };
}

function discontinuityFrom(text: string): { kind: DiscontinuityKind; size?: string } {
  const [, word = '', size = ''] = /^\s*(\S+)\s*(.*?)\s*$/.exec(text) ?? [];
  const kind = oneOf('discontinuity', word, DISCONTINUITY_KINDS) ?? 'other';
  if (size === '') return { kind };
  const read = parseQuantity(size, { dimension: 'length', positive: true });
  if (!read.ok)
    throw new InputError(
      'option-value-wrong',
      `--discontinuity: ${quantityFaultSentence(read.fault, size)}`,
      'discontinuity',
    );
  return { kind, size };
}
