/** `gaugemark laboratory`: who issues certificates from an archive. */
import { NAME_LENGTH_MAX } from '../../../core/limits.ts';
import { takeArguments } from '../arguments.ts';
import { existingArchive, recorderAccess } from '../recorder-access.ts';
import { EXIT_DONE, InputError, type Verb } from '../verb.ts';

const OPTIONS = {
  archive: { type: 'string' },
  name: { type: 'string' },
  address: { type: 'string', multiple: true },
  json: { type: 'boolean' },
} as const;

/** As many as the contract takes: more push the certificate itself off its first page. */
const LINES_MAX = 8;

export const verb: Verb = {
  name: 'laboratory',
  summary: 'name and address at the head of certificates',
  usage: `gaugemark laboratory --archive FILE [--json]
gaugemark laboratory --archive FILE --name TEXT [--address LINE …] [--json]

  Without --name what stands at the head of certificates is shown; with it that is said anew, address and all.
  Certificates that were issued keep the head that they were issued with.

  --name TEXT          of the laboratory, school or shop that issues certificates
  --address LINE       one line below the name, up to ${String(LINES_MAX)} of them: street, town, telephone

  gaugemark laboratory --archive shop.gaugemark --name "Bench Four Welding School" --address "12 Quay Road" --address "Harbour Town"`,
  run: async (args, io) => {
    const given = takeArguments(args, OPTIONS, [], 'laboratory');
    const name = given.text('name')?.trim();
    const lines = given
      .texts('address')
      .flatMap((text) => text.split('\n'))
      .map((line) => line.trim())
      .filter((line) => line !== '');
    if (name === '' || (name === undefined && lines.length > 0))
      throw new InputError(
        'option-missing',
        'The name of the laboratory is missing; give it with --name TEXT.',
        'name',
      );
    if ([name ?? '', ...lines].some((text) => text.length > NAME_LENGTH_MAX))
      throw new InputError(
        'option-value-wrong',
        `A line at the head of a certificate has at most ${String(NAME_LENGTH_MAX)} characters; shorten it.`,
        (name ?? '').length > NAME_LENGTH_MAX ? 'name' : 'address',
      );
    if (lines.length > LINES_MAX)
      throw new InputError(
        'option-value-wrong',
        `The address has ${String(lines.length)} lines; at most ${String(LINES_MAX)} stand at the head of a certificate.`,
        'address',
      );
    const access = await recorderAccess({
      archive: existingArchive(given.text('archive')),
      toRecord: name !== undefined,
      note: io.err,
    });
    try {
      if (name !== undefined) await access.ask('laboratory.save', { name, lines });
      const laboratory = await access.ask('laboratory.get', {});
      if (given.has('json')) io.out(JSON.stringify({ laboratory }));
      else
        io.out(
          laboratory === null
            ? 'No laboratory is entered; say who issues certificates with --name TEXT.'
            : [laboratory.name, ...laboratory.lines].join('\n'),
        );
      return EXIT_DONE;
    } finally {
      await access.end();
    }
  },
};
