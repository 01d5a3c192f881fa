/** `gaugemark learn`: what a readout sends, found out from a port that is talking or from a file of recorded bytes. */
import { writeFileSync } from 'node:fs';
import { open, stat } from 'node:fs/promises';
import type { ReadoutProfile, SerialSettings } from '../../../core/contract/readout-profile.ts';
import { ADDRESS_FORMS, addressOf, sourceFromAddress } from '../../../core/contract/source-address.ts';
import { type LearnableSource, type Source, learnableSource } from '../../../core/contract/source.ts';
import { numberText } from '../../../core/quantity/number-text.ts';
import { learnFromPort } from '../../../drivers/learn/learn-from-port.ts';
import { LEARN_BYTES_MAX, type Learnt, learnLines } from '../../../drivers/learn/learn-lines.ts';
import { SourceFaultError } from '../../../drivers/transport.ts';
import { NAMED_QUANTITIES, named, namesGiven, namingHint } from '../channel-names.ts';
import { type VerbArguments, numberOption, oneOf, takeArguments } from '../arguments.ts';
import { EXIT_DONE, InputError, JobError, type Verb } from '../verb.ts';

const usage = `gaugemark learn --port PATH | --bytes FILE [options]

  Listens to a readout and proposes a readout profile: line settings, end of line, fields, quantities, units, signs.
  Nothing is sent to the readout. A proposal is to be looked at by a person before it is used.

  --port PATH               a port that is talking, or ${ADDRESS_FORMS.tcp} for a serial device server; not while a pull
                            is recorded from it. Nothing is sent, so what only answers when asked can't be learned from
                            its port (polled readouts, Modbus registers): see what its manual says of them
  --bytes FILE              a file of recorded bytes instead
  --seconds N               listen for so long at the settings that fit (default 5)
  --baud N                  try this baud rate first (a device server has its own)
  --dtr WORD, --rts WORD    on or off: how the control lines are set after opening, kept in the profile; some readouts
                            begin anew when DTR moves (default: left alone)
  --name TEXT               name of the profile
  --channel FIELD=QUANTITY:UNIT
                            what a field is that the readout does not name, for example 3=force:lbf; may be given
                            several times; ${NAMED_QUANTITIES.join(', ')}
  --save FILE               write the profile to a file; what is printed is then what was found, in short
  --json                    one JSON document on stdout; remarks go to stderr

  gaugemark learn --port /dev/ttyUSB0
  gaugemark learn --port /dev/ttyUSB0 --channel 2=force:lbf --channel 3=extension:in --save indicator.json`;

const OPTIONS = {
  port: { type: 'string' },
  bytes: { type: 'string' },
  seconds: { type: 'string' },
  baud: { type: 'string' },
  dtr: { type: 'string' },
  rts: { type: 'string' },
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
    const bytesFile = given.text('bytes');
    if ((port === undefined) === (bytesFile === undefined))
      throw new InputError(
        'source-not-given',
        'Give either --port PATH for a port that is talking or --bytes FILE for recorded bytes.',
        'port',
      );
    const name = nameGiven(given.text('name'));
    const seconds =
      numberOption('seconds', given.text('seconds'), { above: 0, max: SECONDS_MAX }) ?? SECONDS_DEFAULT;
    const baud = numberOption('baud', given.text('baud'), { above: 49, max: BAUD_MAX });
    const controlLines = controlLinesFrom(given);
    const names = namesGiven(given.texts('channel'));
    const typed = port === undefined ? null : sourceAt(port);
    const proposed =
      typed === null
        ? await fromFile(bytesFile ?? '', name)
        : typed.kind === 'replay'
          ? await fromFile(typed.file, name)
          : await fromPort(talking(typed), { seconds, name, baud, controlLines });
    const learnt = named(proposed, names);
    const save = given.text('save');
    if (save !== undefined) saveProfile(save, learnt);
    if (given.has('json')) {
      io.out(JSON.stringify(documentOf(learnt)));
      for (const remark of learnt.remarks) io.err(remark);
    } else io.out(textOf(learnt, save));
    return EXIT_DONE;
  },
};

function nameGiven(text: string | undefined): string | undefined {
  if (text === undefined) return undefined;
  if (text.trim() === '' || text.length > 300)
    throw new InputError('name-wrong', '--name must be a name of 1 to 300 characters.', 'name');
  return text.trim();
}

function sourceAt(address: string): Source {
  const typed = sourceFromAddress(address);
  if (!typed.ok) throw new InputError('option-value-wrong', `--port: ${typed.sentence}`, 'port');
  return typed.source;
}

function talking(typed: Source): LearnableSource {
  const read = learnableSource.safeParse(typed);
  if (read.success) return read.data;
  throw new InputError(
    'not-learnable',
    'Modbus registers are answered only to whoever asks for them by number, and learning sends nothing; write a profile with the numbers from the manual of the instrument (the example with registers shows its form).',
    'port',
  );
}

interface PortRequest {
  readonly seconds: number;
  readonly name: string | undefined;
  readonly baud: number | undefined;
  readonly controlLines: ReadoutProfile['controlLines'];
}

/** Undefined where neither line was named. */
function controlLinesFrom(given: VerbArguments): ReadoutProfile['controlLines'] {
  const [dtr, rts] = (['dtr', 'rts'] as const).map((line) => oneOf(line, given.text(line), ON_OFF));
  if (dtr === undefined && rts === undefined) return undefined;
  return {
    ...(dtr === undefined ? {} : { dtr: dtr === 'on' }),
    ...(rts === undefined ? {} : { rts: rts === 'on' }),
  };
}
const ON_OFF = ['on', 'off'] as const;

async function fromPort(
  source: LearnableSource,
  { seconds, name, baud, controlLines }: PortRequest,
): Promise<Learnt> {
  const place = addressOf(source) ?? '';
  if (source.kind === 'tcp' && (baud !== undefined || controlLines !== undefined))
    throw new InputError(
      'options-exclude',
      'Speed and control lines of a device server are set on the server itself; leave out --baud, --dtr and --rts.',
      baud === undefined ? 'dtr' : 'baud',
    );
  const settings: SerialSettings | undefined =
    baud === undefined
      ? undefined
      : { baudRate: Math.round(baud), dataBits: 8, parity: 'none', stopBits: 1, flowControl: 'none' };
  try {
    const { learnt, bytes } = await learnFromPort({
      source,
      seconds,
      ...(name === undefined ? {} : { name }),
      ...(settings === undefined ? {} : { settings }),
      ...(controlLines === undefined ? {} : { controlLines }),
    });
    if (learnt !== null) return learnt;
    throw bytes === 0
      ? new JobError(
          'port-silent',
          `${place} sends nothing; check the cable, and whether the readout sends by itself or must be asked.`,
        )
      : new JobError(
          'nothing-learned',
          source.kind === 'tcp'
            ? `${place} sends bytes (${String(bytes)}), but they make no lines with numbers; check the line settings of the device server against the readout's manual.`
            : `${place} sends bytes (${String(bytes)}), but at none of the usual line settings do they make lines with numbers; check the readout's manual for its baud rate and give it with --baud.`,
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

/** What a program takes; what a person is to look at goes beside it. */
function documentOf({ profile, confidence, channels, readings, rejected }: Learnt): object {
  return {
    profile,
    confidence,
    channels: channels.map(({ field, quantity, unit }) => ({ field, quantity, unit })),
    readings,
    rejected,
  };
}

/** What was found; the profile itself only where it was not saved. */
function textOf(learnt: Learnt, savedAs: string | undefined): string {
  const { profile, confidence, channels, readings, rejected, remarks } = learnt;
  const { serial, rateHz } = profile;
  const hint = namingHint(channels);
  return [
    `Confidence ${confidence.toFixed(2)}; ${String(readings)} lines read, ${String(rejected)} rejected.`,
    ...(serial === undefined ? [] : [`  ${settingsText(serial)}`]),
    ...(rateHz === undefined ? [] : [`  ${numberText(rateHz, 3)} readings a second`]),
    ...channels.map(
      ({ field, quantity, unit }) =>
        `  field ${field}: ${quantity ?? 'not known'}${unit === null ? '' : `, ${unit}`}`,
    ),
    ...remarks,
    ...(hint === null ? [] : [hint]),
    savedAs === undefined
      ? JSON.stringify(profile, null, 2)
      : `The profile "${profile.name}" is saved in ${savedAs}; look at it before it is used.`,
  ].join('\n');
}

const settingsText = ({ baudRate, dataBits, parity, stopBits }: SerialSettings): string =>
  `${String(baudRate)} baud, ${String(dataBits)} data bits, ${parity} parity, ${String(stopBits)} stop ${stopBits === 1 ? 'bit' : 'bits'}`;
