/** `gaugemark learn`: what a readout sends, found out from a port that is talking or from a file of recorded bytes. */
import { writeFileSync } from 'node:fs';
import { open, stat } from 'node:fs/promises';
import type { SerialSettings } from '../../../core/contract/readout-profile.ts';
import { learnFromPort } from '../../../drivers/learn/learn-from-port.ts';
import { LEARN_BYTES_MAX, type Learnt, learnLines } from '../../../drivers/learn/learn-lines.ts';
import { SourceFaultError } from '../../../drivers/transport.ts';
import { NAMED_QUANTITIES, named, namesGiven, namingHint } from '../channel-names.ts';
import { numberOption, takeArguments } from '../arguments.ts';
import { EXIT_DONE, InputError, JobError, type Verb, type VerbIo } from '../verb.ts';

const usage = `gaugemark learn --port PATH | --bytes FILE [options]

  Listens to a readout and proposes a readout profile: line settings, end of line, fields, quantities, units, signs.
  Nothing is sent to the readout. A proposal is to be looked at by a person before it is used.

  --port PATH               a port that is talking; not while a pull is recorded from it
  --bytes FILE              a file of recorded bytes instead
  --seconds N               listen for so long at the settings that fit (default 5)
  --baud N                  try this baud rate first
  --name TEXT               name of the profile
  --channel FIELD=QUANTITY:UNIT
                            what a field is that the readout does not name, for example 3=force:lbf; may be given
                            several times; ${NAMED_QUANTITIES.join(', ')}
  --save FILE               write the profile to a file
  --json                    one JSON document on stdout

  gaugemark learn --port /dev/ttyUSB0
  gaugemark learn --port /dev/ttyUSB0 --channel 2=force:lbf --channel 3=extension:in --save indicator.json`;

const OPTIONS = {
  port: { type: 'string' },
  bytes: { type: 'string' },
  seconds: { type: 'string' },
  baud: { type: 'string' },
  name: { type: 'string' },
  channel: { type: 'string', multiple: true },
  save: { type: 'string' },
  json: { type: 'boolean' },
} as const;

const SECONDS_MAX = 600;
const SECONDS_DEFAULT = 5;
const BAUD_MAX = 4_000_000;

export const verb: Verb = {
  name: 'learn',
  summary: 'a readout profile, found out from what a readout sends',
  usage,
  run: async (args, io) => {
    const given = takeArguments(args, OPTIONS, [], 'learn');
    const port = given.text('port');
    const file = given.text('bytes');
    if ((port === undefined) === (file === undefined))
      throw new InputError(
        'source-not-given',
        'Give either --port PATH for a port that is talking or --bytes FILE for recorded bytes.',
        'port',
      );
    const name = nameGiven(given.text('name'));
    const seconds =
      numberOption('seconds', given.text('seconds'), { above: 0, max: SECONDS_MAX }) ?? SECONDS_DEFAULT;
    const baud = numberOption('baud', given.text('baud'), { above: 49, max: BAUD_MAX });
    const names = namesGiven(given.texts('channel'));
    const proposed =
      file === undefined ? await fromPort(port ?? '', { seconds, name, baud }) : await fromFile(file, name);
    const learnt = named(proposed, names);
    const save = given.text('save');
    if (save !== undefined) saveProfile(save, learnt);
    answer(learnt, given.has('json'), io);
    return EXIT_DONE;
  },
};

function nameGiven(text: string | undefined): string | undefined {
  if (text === undefined) return undefined;
  if (text.trim() === '' || text.length > 300)
    throw new InputError('name-wrong', '--name must be a name of 1 to 300 characters.', 'name');
  return text.trim();
}

interface PortRequest {
  readonly seconds: number;
  readonly name: string | undefined;
  readonly baud: number | undefined;
}

async function fromPort(path: string, { seconds, name, baud }: PortRequest): Promise<Learnt> {
  const settings: SerialSettings | undefined =
    baud === undefined
      ? undefined
      : { baudRate: Math.round(baud), dataBits: 8, parity: 'none', stopBits: 1, flowControl: 'none' };
  try {
    const { learnt, bytes } = await learnFromPort({
      path,
      seconds,
      ...(name === undefined ? {} : { name }),
      ...(settings === undefined ? {} : { settings }),
    });
    if (learnt !== null) return learnt;
    throw bytes === 0
      ? new JobError(
          'port-silent',
          `${path} sends nothing; check the cable, and whether the readout sends by itself or must be asked.`,
        )
      : new JobError(
          'nothing-learned',
          `${path} sends bytes (${String(bytes)}), but at none of the usual line settings do they make lines with numbers; check the readout's manual for its baud rate and give it with --baud.`,
        );
  } catch (error) {
    if (!(error instanceof SourceFaultError)) throw error;
    const { code, sentence } = error.fault;
    if (code === 'port-missing' || code === 'not-a-port') throw new InputError(code, sentence, 'port');
    throw new JobError(code, sentence);
  }
}

async function fromFile(path: string, name: string | undefined): Promise<Learnt> {
  const bytes = await bytesOf(path);
  if (bytes.length === 0)
    throw new InputError(
      'file-empty',
      `${path} is empty; record some seconds of the readout first.`,
      'bytes',
    );
  const learnt = learnLines(bytes, name === undefined ? {} : { name });
  if (learnt === null)
    throw new JobError(
      'nothing-learned',
      `${path} holds no lines with numbers; check that it was recorded at the readout's own line settings.`,
    );
  return learnt;
}

async function bytesOf(path: string): Promise<Buffer> {
  let handle;
  try {
    if (!(await stat(path)).isFile())
      throw new InputError('file-unreadable', `${path} is no file; a port is given with --port.`, 'bytes');
    handle = await open(path, 'r');
    const buffer = Buffer.alloc(LEARN_BYTES_MAX);
    const { bytesRead } = await handle.read(buffer, 0, buffer.length, 0);
    return buffer.subarray(0, bytesRead);
  } catch (error) {
    if (error instanceof InputError) throw error;
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    throw new InputError(
      code === 'ENOENT' ? 'file-missing' : 'file-unreadable',
      code === 'ENOENT'
        ? `There is no file ${path}; check its name.`
        : `${path} can't be read (${code}); check its permissions.`,
      'bytes',
    );
  } finally {
    await handle?.close();
  }
}

function saveProfile(path: string, { profile }: Learnt): void {
  try {
    // Never over a file that is there: it may be the profile that pulls were recorded with.
    writeFileSync(path, `${JSON.stringify(profile, null, 2)}\n`, { flag: 'wx' });
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
    throw new InputError(
      'save-failed',
      code === 'EEXIST'
        ? `${path} exists already and is left as it is; choose another name with --save.`
        : `${path} can't be written (${code}); choose another place with --save.`,
      'save',
    );
  }
}

function answer(
  { profile, confidence, channels, readings, rejected, remarks }: Learnt,
  json: boolean,
  io: VerbIo,
): void {
  if (json) {
    io.out(
      JSON.stringify({
        profile,
        confidence,
        channels: channels.map(({ field, quantity, unit }) => ({ field, quantity, unit })),
        readings,
        rejected,
        remarks,
      }),
    );
    return;
  }
  io.out(
    `Confidence ${confidence.toFixed(2)}; ${String(readings)} lines read, ${String(rejected)} rejected.`,
  );
  for (const { field, quantity, unit } of channels)
    io.out(`  field ${field}: ${quantity ?? 'not known'}${unit === null ? '' : `, ${unit}`}`);
  for (const remark of remarks) io.out(remark);
  const hint = namingHint(channels);
  if (hint !== null) io.out(hint);
  io.out(JSON.stringify(profile, null, 2));
}
