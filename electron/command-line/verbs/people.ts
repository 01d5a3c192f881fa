/** `gaugemark people list|add|correct|retire`: the people of this machine. */
import { type Person, PERSON_ROLES } from '../../../core/contract/people-requests.ts';
import { type VerbArguments, oneOf, takeArguments } from '../arguments.ts';
import { pinFromFile } from '../pin-file.ts';
import { pullNumber } from '../pull-number.ts';
import { existingArchive, recorderAccess } from '../recorder-access.ts';
import { EXIT_DONE, InputError, type Verb } from '../verb.ts';

const ACTIONS = ['list', 'add', 'correct', 'retire'] as const;

const OPTIONS = {
  archive: { type: 'string' },
  person: { type: 'string' },
  name: { type: 'string' },
  sign: { type: 'string' },
  role: { type: 'string', multiple: true },
  reason: { type: 'string' },
  'pin-file': { type: 'string' },
  'new-pin-file': { type: 'string' },
  json: { type: 'boolean' },
} as const;

export const verb: Verb = {
  name: 'people',
  summary: 'people of this machine: name, short sign, roles, a PIN where one is wanted',
  usage: `gaugemark people list --archive FILE [--json]
gaugemark people add --name TEXT --sign TEXT [--role WORD …] [--new-pin-file FILE] --archive FILE
gaugemark people correct --person ID [--name TEXT] [--sign TEXT] [--role WORD …] [--new-pin-file FILE] --reason TEXT [--pin-file FILE]
gaugemark people retire --person ID --reason TEXT [--pin-file FILE]

  --role WORD          ${PERSON_ROLES.join(', ')}
  --new-pin-file FILE  the PIN from now on: the file's first line, 4 to 64 characters. Kept as a salted hash only
  --pin-file FILE      the PIN up to now; whoever has one is corrected with it only

  gaugemark people add --archive shop.gaugemark --name "Operator Two" --sign OP2 --role operator`,
  run: async (args, io) => {
    const action = oneOf('action', args[0], ACTIONS) ?? 'list';
    const given = takeArguments(args.slice(1), OPTIONS, [], 'people');
    const pin = pinFromFile(given.text('new-pin-file'));
    const pinBefore = pinFromFile(given.text('pin-file'));
    const access = await recorderAccess({
      archive: existingArchive(given.text('archive')),
      toRecord: action !== 'list',
      note: io.err,
    });
    try {
      const { people } = await access.ask('people.list', {});
      if (action !== 'list') {
        const before = action === 'add' ? null : personFrom(people, given);
        const roles = given.texts('role').map((word) => oneOf('role', word, PERSON_ROLES) ?? 'operator');
        await access.ask('people.save', {
          name: given.text('name') ?? before?.name ?? missing('name'),
          sign: given.text('sign') ?? before?.sign ?? missing('sign'),
          roles: roles.length === 0 ? [...(before?.roles ?? [])] : roles,
          retired: action === 'retire',
          ...(pin === undefined ? {} : { pin }),
          ...(pinBefore === undefined ? {} : { pinBefore }),
          ...(before === null
            ? {}
            : { supersedes: before.personId, reason: given.text('reason') ?? missing('reason') }),
        });
      }
      const now = action === 'list' ? people : (await access.ask('people.list', {})).people;
      if (given.has('json')) io.out(JSON.stringify({ people: now }));
      else io.out(now.length === 0 ? 'Nobody is entered here yet.' : now.map(personText).join('\n'));
      return EXIT_DONE;
    } finally {
      await access.end();
    }
  },
};

function missing(option: string): never {
  throw new InputError(
    'option-missing',
    `--${option} is missing; "gaugemark help people" shows an example.`,
    option,
  );
}

function personFrom(people: readonly Person[], given: VerbArguments): Person {
  const id = pullNumberOf(given.text('person'));
  const found = people.find((one) => one.personId === id);
  if (found === undefined)
    throw new InputError(
      'no-such-person',
      `There is no person ${String(id)} here; "gaugemark people list" shows them.`,
      'person',
    );
  return found;
}

const pullNumberOf = (text: string | undefined): number =>
  text === undefined ? missing('person') : pullNumber(text, 'person');

const personText = ({ personId, name, sign, roles, hasPin, retired }: Person): string =>
  `${String(personId).padStart(4)}  ${sign.padEnd(12)}  ${name}${roles.length === 0 ? '' : `: ${roles.join(', ')}`}${hasPin ? '; signs with a PIN' : ''}${retired ? '; retired' : ''}`;
