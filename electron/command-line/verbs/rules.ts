/** `gaugemark rules list|show ID|check FILE`: which rule packs there are, what they say, what is wrong with one. */
import { homedir } from 'node:os';
import { join } from 'node:path';
import { packListing } from '../../../core/acceptance/packs.ts';
import { readRulePack, selfContainedPackFile } from '../../../core/acceptance/read-rule-pack.ts';
import { usualRulesFolder } from '../../rules/rules-folder-place.ts';
import { takeArguments } from '../arguments.ts';
import { readJsonFile } from '../input-files.ts';
import {
  RULES_FOLDER_OPTION,
  packFaultsError,
  packFromArgument,
  packsAtHand,
  refusedLines,
} from '../rule-pack-argument.ts';
import { rulePackText } from '../rule-pack-text.ts';
import { EXIT_DONE, EXIT_INPUT_WRONG, type ExitCode, InputError, type Verb, type VerbIo } from '../verb.ts';

const usage = `gaugemark rules list [--rules-folder DIR] [--json]
gaugemark rules show ID|FILE [--rules-folder DIR] [--json]
gaugemark rules check FILE [--json]

  list     the rule packs: id, name, edition, kind (code or practice)
  show     the rules in words with clause and source, and every base metal and filler class with its id;
           with --json the pack as a file that needs no table, to start one of your own from
  check    what is wrong with a pack file: field, what, what to do (exit code 2), or that it is right (0)

  Your own packs lie as one JSON file each in the rules folder, and are there wherever the program's own are: on the
  command line, in the window, in sets. One with the id of a pack of the program takes its place. A file with a fault
  is told by "rules list" and never used. The usual folder: ${usualRulesFolder({ platform: process.platform, home: homedir(), environment: process.env })}

  --rules-folder DIR   another folder

  gaugemark rules show asme-ix --json > our-rules.json`;

const OPTIONS = { ...RULES_FOLDER_OPTION, json: { type: 'boolean' } } as const;

export const verb: Verb = {
  name: 'rules',
  summary: 'list, show and check rule packs',
  usage,
  run: (args, io) => {
    const [act, ...rest] = args;
    switch (act ?? '') {
      case 'list':
        return list(rest, io);
      case 'show':
        return show(rest, io);
      case 'check':
        return Promise.resolve(check(rest, io));
      default:
        throw new InputError(
          'argument-missing',
          `Say what to do with rules: list, show ID or check FILE${act === undefined || act.startsWith('-') ? '' : ` ("${act.slice(0, 40)}" is none of them)`}.`,
        );
    }
  },
};

async function list(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const given = takeArguments(args, OPTIONS, [], 'rules');
  const { packs, folder } = await packsAtHand(given.text('rules-folder'));
  const listings = packs.map(packListing);
  if (given.has('json')) io.out(JSON.stringify(listings));
  else {
    const width = Math.max(...listings.map((pack) => pack.id.length));
    io.out(
      listings
        .map((pack, index) => {
          const origin = packs[index]?.origin;
          const own = origin === undefined ? '' : ` (${join(folder.folder, origin.file)})`;
          return `${pack.id.padEnd(width)}  ${pack.kind.padEnd(8)}  ${pack.name}; ${pack.edition}${own}`;
        })
        .join('\n'),
    );
  }
  for (const line of refusedLines(folder)) io.err(line);
  return EXIT_DONE;
}

async function show(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const given = takeArguments(args, OPTIONS, ['The id of a rule pack'], 'rules');
  const pack = packFromArgument(given.positionals[0] ?? '', await packsAtHand(given.text('rules-folder')));
  io.out(given.has('json') ? JSON.stringify(selfContainedPackFile(pack), null, 2) : rulePackText(pack));
  return EXIT_DONE;
}

function check(args: readonly string[], io: VerbIo): ExitCode {
  const given = takeArguments(args, OPTIONS, ['The file of a rule pack'], 'rules');
  const path = given.positionals[0] ?? '';
  const read = readRulePack(readJsonFile(path, 'rule pack'));
  if (read.ok) {
    const listing = packListing(read.pack);
    if (given.has('json')) io.out(JSON.stringify({ ok: true, pack: listing, faults: [] }));
    else {
      io.out(
        `${path}: right. ${listing.id}, ${String(read.pack.file.rules.length)} rules, ${String(read.pack.baseMetals.length)} base metals, ${String(read.pack.fillers.length)} filler classes.`,
      );
    }
    return EXIT_DONE;
  }
  const error = packFaultsError(path, read.faults);
  if (given.has('json')) {
    io.out(
      JSON.stringify({
        ok: false,
        faults: read.faults,
        error: { code: error.code, sentence: error.message, field: error.field },
      }),
    );
  }
  for (const fault of read.faults) io.err(`${path}: ${fault.sentence}`);
  return EXIT_INPUT_WRONG;
}
