/** `gaugemark rules list|show ID|check FILE`: which rule packs there are, what they say, what is wrong with one. */
import { packListing } from '../../../core/acceptance/packs.ts';
import { readRulePack, selfContainedPackFile } from '../../../core/acceptance/read-rule-pack.ts';
import { takeArguments } from '../arguments.ts';
import { readJsonFile } from '../input-files.ts';
import { packFaultsError, packFromArgument, packsWithFolder } from '../rule-pack-argument.ts';
import { rulePackText } from '../rule-pack-text.ts';
import { EXIT_DONE, EXIT_INPUT_WRONG, type ExitCode, InputError, type Verb, type VerbIo } from '../verb.ts';

const usage = `gaugemark rules list [--folder DIR] [--json]
gaugemark rules show ID|FILE [--folder DIR] [--json]
gaugemark rules check FILE [--json]

  list     the rule packs: id, name, edition, kind (code or practice)
  show     the rules in words with clause and source, and every base metal and filler class with its id;
           with --json the pack as a file that needs no table, to start one of your own from
  check    what is wrong with a pack file: field, what, what to do (exit code 2), or that it is right (0)

  --folder DIR   read the packs in this folder too

  gaugemark rules show asme-ix --json > our-rules.json`;

const OPTIONS = { folder: { type: 'string' }, json: { type: 'boolean' } } as const;

export const verb: Verb = {
  name: 'rules',
  summary: 'list, show and check rule packs',
  usage,
  run: (args, io) => {
    const [act, ...rest] = args;
    switch (act ?? '') {
      case 'list':
        return Promise.resolve(list(rest, io));
      case 'show':
        return Promise.resolve(show(rest, io));
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

function list(args: readonly string[], io: VerbIo): ExitCode {
  const given = takeArguments(args, OPTIONS, [], 'rules');
  const listings = packsWithFolder(given.text('folder')).map(packListing);
  if (given.has('json')) io.out(JSON.stringify(listings));
  else {
    const width = Math.max(...listings.map((pack) => pack.id.length));
    io.out(
      listings
        .map((pack) => `${pack.id.padEnd(width)}  ${pack.kind.padEnd(8)}  ${pack.name}; ${pack.edition}`)
        .join('\n'),
    );
  }
  return EXIT_DONE;
}

function show(args: readonly string[], io: VerbIo): ExitCode {
  const given = takeArguments(args, OPTIONS, ['The id of a rule pack'], 'rules');
  const pack = packFromArgument(given.positionals[0] ?? '', packsWithFolder(given.text('folder')));
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
