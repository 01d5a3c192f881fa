/** `gaugemark pull`: records one pull from a port into an archive, and prints what came out. */
import { existsSync } from 'node:fs';
import { parseQuantity, quantityFaultSentence } from '../../../core/quantity/parse-quantity.ts';
import { UNIT_SYSTEMS } from '../../../core/quantity/display-unit.ts';
import type { KeptPull } from '../../../core/contract/pull-requests.ts';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import {
  DEFAULT_BREAK,
  DEFAULT_TAIL_S,
  DEFAULT_TRIGGER,
  type TriggerRule,
} from '../../../core/contract/rules.ts';
import type { Notice } from '../../../core/contract/notice.ts';
import type { SecondReadout } from '../../../core/contract/second-readout.ts';
import type { Session } from '../../../core/contract/session.ts';
import type { Pace, Source } from '../../../core/contract/source.ts';
import { ADDRESS_FORMS, addressOf, sourceFromAddress } from '../../../core/contract/source-address.ts';
import { concernSentence } from '../../../core/instruments/pull-instruments.ts';
import { NAME_LENGTH_MAX } from '../../../core/limits.ts';
import { joinFault } from '../../../core/pull/joined-channels.ts';
import { showsPeakOnly } from '../../../core/pull/peak-only.ts';
import type { SpecimenFile } from '../../../core/specimen/specimen-file.ts';
import {
  shippedScenarios,
  profileOfScenario,
  shippedScenario,
} from '../../../drivers/simulated-frame/scenarios.ts';
import type { Scenario } from '../../../drivers/simulated-frame/scenario.ts';
import { type VerbArguments, numberOption, oneOf, takeArguments } from '../arguments.ts';
import { tellEarlierPull } from '../earlier-pull.ts';
import { readProfileFile, specimenToKeep } from '../input-files.ts';
import { TYPED_FLAGS, TYPED_USAGE, pullTyped, refuseTypedOptions } from '../typed-pull.ts';
import { NoticeTeller } from '../notice-teller.ts';
import { keptAndEvaluated, pullAnswer } from '../pull-document.ts';
import { type RecorderAccess, recorderAccess } from '../recorder-access.ts';
import { rowNumber } from '../row-number.ts';
import { EXIT_DONE, InputError, JobError, type Verb, type VerbIo } from '../verb.ts';

const TAIL_S_MAX = 600;

const usage = `gaugemark pull --port PATH --readout FILE.json --specimen FILE.json [--archive FILE] [options]
gaugemark pull --port PATH --readout FILE.json --second-port PATH --second-readout FILE.json --specimen FILE.json …
gaugemark pull --simulated SCENARIO [--specimen FILE.json] [--archive FILE] [options]
gaugemark pull --typed --specimen FILE.json --load FORCE [--elongation PERCENT] [--archive FILE] [options]

  Records one pull: everything that the readout sends from now on, with marks where the pull starts and where the
  specimen breaks. It only listens; the frame is started and stopped by a person at the frame.

  Guard closed, eyes protected: a loaded specimen stores energy, and this program is no safety device.

  --port PATH            serial port, for example /dev/ttyUSB0 or COM3; or one of
                         ${Object.values(ADDRESS_FORMS).join(', ')}
                         (UNIT is 1 where it is left out; a file of recorded bytes is no pull of today and marked so)
  --readout FILE         readout profile as JSON: how the port is set and what the lines mean
  --second-port PATH     a second instrument for the same pull, on a port of its own: extension beside the load, which
                         comes from --port. Each load is kept with the newest extension that had come by then
  --second-readout FILE  readout profile of the second instrument
  --simulated SCENARIO   the simulated frame instead of a port: ${shippedScenarios()
    .map((s) => s.name)
    .join(', ')}
  --pace N               simulated frame and replay: that many times true pace, or "faster" (default: true pace)
  --seed N               simulated frame: another course of its noise
  --specimen FILE        specimen as JSON, quantities as text
  --archive FILE         archive to record into; it is begun where it does not exist yet
  --until WORD           break (default): until the tail after the break is over; or so many seconds from now on
  --trigger FORCE        the pull starts at this force, for example "500 N" or "100 lbf" (default ${DEFAULT_TRIGGER.kind === 'force' ? DEFAULT_TRIGGER.thresholdN : 0} N)
  --tail SECONDS         recorded after the break, 0.5 to ${TAIL_S_MAX} (default ${DEFAULT_TAIL_S}); then the record is closed. Nobody is
                         asked here, so a break that was none can't be taken back as in the window: pull on with a
                         new record, or give a longer tail; load that comes back within it keeps the record open
${TYPED_USAGE}
  --operator NAME        kept with the pull
  --instrument ID        an instrument of the register that it is measured with ("gaugemark instruments list"), one of each
                         kind; certificate, due date and state are kept as they stand, and told where something is overdue
  --units WORD           si or us: units of the text (default: as the specimen was measured); --json is SI
  --json                 one JSON document on stdout

  Ctrl-C closes the record; what was recorded stays.

  gaugemark pull --port /dev/ttyUSB0 --readout bench.json --specimen T-1.json --archive shop.gaugemark`;

const OPTIONS = {
  ...TYPED_FLAGS,
  port: { type: 'string' },
  readout: { type: 'string' },
  'second-port': { type: 'string' },
  'second-readout': { type: 'string' },
  simulated: { type: 'string' },
  pace: { type: 'string' },
  seed: { type: 'string' },
  specimen: { type: 'string' },
  archive: { type: 'string' },
  until: { type: 'string' },
  trigger: { type: 'string' },
  tail: { type: 'string' },
  operator: { type: 'string' },
  instrument: { type: 'string', multiple: true },
  units: { type: 'string' },
  json: { type: 'boolean' },
} as const;

const SECONDS_MAX = 86_400;

export const verb: Verb = {
  name: 'pull',
  summary: 'record one pull from a port into an archive',
  usage,
  run: async (args, io) => {
    const given = takeArguments(args, OPTIONS, [], 'pull');
    if (given.has('typed'))
      return pullTyped(
        given,
        {
          specimen: specimenFrom(given, null, io.err),
          operator: operatorFrom(given.text('operator')),
          instruments: instrumentsFrom(given),
        },
        io,
      );
    refuseTypedOptions(given);
    const order = pullOrder(given, io.err);
    const units = oneOf('units', given.text('units'), UNIT_SYSTEMS);
    const access = await recorderAccess({
      archive: given.text('archive'),
      toRecord: true,
      note: io.err,
      source: order.source,
    });
    let hasBegun = false;
    try {
      const notes = await tellEarlierPull(access, order.specimen.id, io.err);
      const ended = await begin(access, order, io);
      hasBegun = true;
      const pullId = await ended();
      const kept = await keptAndEvaluated(access, pullId);
      refuseEmpty(kept.pull, order.source);
      tellOfClosing(kept.pull, io);
      io.out(await pullAnswer(access, kept, { json: given.has('json'), working: false, units, notes }));
      return EXIT_DONE;
    } finally {
      await (hasBegun ? access.end() : access.endWithoutPull());
    }
  },
};

/** In the window a break can still be taken back; here its record is closed, and whoever reads this must know. */
function tellOfClosing({ pullId, marks }: KeptPull, io: VerbIo): void {
  const end = marks.at(-1);
  if (end?.kind !== 'record-ends' || end.cause !== 'rule') return;
  io.err(
    `Pull ${pullId}: ${end.words}, which can't be taken back here. If the specimen had not broken (slipped grips), pull on with a new record.`,
  );
}

/** A record without a reading is kept like any other, but the job it was made for has failed. */
function refuseEmpty(pull: KeptPull, source: Source): void {
  if (pull.readingCount > 0) return;
  const from = placeOf(source);
  throw pull.rawByteCount === 0
    ? new JobError(
        'nothing-received',
        pull.profile.mode.kind === 'polled'
          ? `No answer from ${from} could be used while pull ${pull.pullId} was recorded; check what was told meanwhile, the request (registers, unit) in the profile, and the cable.`
          : `Nothing came from ${from} while pull ${pull.pullId} was recorded; check that the readout is on and sends by itself, the cable, and that this is its port.`,
      )
    : new JobError(
        'no-line-read',
        `${pull.rawByteCount} bytes came from ${from}, but no line that the readout profile can read; they are kept as pull ${pull.pullId}: check baud rate and profile ("gaugemark learn --port" proposes one).`,
      );
}

const placeOf = (source: Source): string => addressOf(source) ?? 'the readout';

interface PullOrder {
  readonly source: Source;
  readonly profile: ReadoutProfile;
  readonly second: SecondReadout | null;
  readonly specimen: SpecimenFile;
  readonly trigger: TriggerRule;
  readonly tailS: number;
  /** Seconds from now on, null: until the break. */
  readonly untilS: number | null;
  readonly operator: string | undefined;
  /** Of the register, by number. */
  readonly instruments: readonly number[];
}

/** Everything that was typed, checked before anything is opened. */
function pullOrder(given: VerbArguments, say: VerbIo['err']): PullOrder {
  const scenario = scenarioFrom(given);
  const until = given.text('until') ?? 'break';
  if (until !== 'break' && Number.isNaN(Number(until)))
    throw new InputError(
      'option-value-wrong',
      `--until "${until.slice(0, 40)}" is neither the word break nor a number of seconds.`,
      'until',
    );
  const untilS = until === 'break' ? null : numberOption('until', until, { above: 0, max: SECONDS_MAX });
  const source = sourceFrom(given, scenario);
  const profile = profileFrom(given, scenario);
  const second = secondFrom(given);
  refuseWithoutForce(profile, second?.profile ?? null);
  return {
    source,
    profile,
    second,
    specimen: specimenFrom(given, scenario, say),
    trigger: triggerFrom(given.text('trigger')),
    tailS: numberOption('tail', given.text('tail'), { above: 0.49, max: TAIL_S_MAX }) ?? DEFAULT_TAIL_S,
    untilS: untilS ?? null,
    operator: operatorFrom(given.text('operator')),
    instruments: instrumentsFrom(given),
  };
}

const instrumentsFrom = (given: VerbArguments): number[] =>
  given.texts('instrument').map((text) => rowNumber(text, 'instrument'));

function scenarioFrom(given: VerbArguments): Scenario | null {
  const name = given.text('simulated');
  if (name === undefined) return null;
  const scenario = shippedScenario(name);
  if (scenario === null)
    throw new InputError(
      'scenario-unknown',
      `There is no scenario "${name.slice(0, 60)}"; use one of ${shippedScenarios()
        .map((s) => s.name)
        .join(', ')}.`,
      'simulated',
    );
  return scenario;
}

/** Both of its options, or neither. */
function secondFrom(given: VerbArguments): SecondReadout | null {
  const [port, readout] = [given.text('second-port'), given.text('second-readout')];
  if (port === undefined && readout === undefined) return null;
  if (port === undefined || readout === undefined)
    throw new InputError(
      'option-missing',
      '--second-port PATH and --second-readout FILE belong together: where the second instrument is, and how it speaks.',
      port === undefined ? 'second-port' : 'second-readout',
    );
  return { source: sourceAt(port, 'second-port'), profile: readProfileFile(readout) };
}

function sourceFrom(given: VerbArguments, scenario: Scenario | null): Source {
  const port = given.text('port');
  if (scenario !== null) {
    if (port !== undefined)
      throw new InputError('options-exclude', 'Give either --port or --simulated, not both.', 'port');
    const seed = numberOption('seed', given.text('seed'), { above: -1, max: 4_294_967_295 });
    return {
      kind: 'simulated',
      scenario: scenario.name,
      ...paceFrom(given),
      ...(seed === undefined ? {} : { seed: Math.trunc(seed) }),
    };
  }
  if (port === undefined || port === '')
    throw new InputError(
      'option-missing',
      '--port PATH is missing (or --simulated SCENARIO for the simulated frame).',
      'port',
    );
  const source = sourceAt(port, 'port');
  return source.kind === 'replay' ? { ...source, ...paceFrom(given) } : source;
}

function paceFrom(given: VerbArguments): { pace?: Pace } {
  const text = given.text('pace');
  if (text === 'faster') return { pace: text };
  const pace = numberOption('pace', text, { above: 0, max: 10_000 });
  return pace === undefined ? {} : { pace };
}

function sourceAt(address: string, option: string): Source {
  const typed = sourceFromAddress(address);
  if (!typed.ok) throw new InputError('option-value-wrong', `--${option}: ${typed.sentence}`, option);
  const { source } = typed;
  if ('path' in source && process.platform !== 'win32' && !existsSync(source.path))
    throw new InputError(
      'port-missing',
      `There is no port ${source.path}; plug the adapter in, or give the path that it has now.`,
      option,
    );
  if (source.kind === 'replay' && !existsSync(source.file))
    throw new InputError('file-missing', `There is no file ${source.file}; check its name.`, option);
  return source;
}

function profileFrom(given: VerbArguments, scenario: Scenario | null): ReadoutProfile {
  const path = given.text('readout');
  if (path === undefined) {
    if (scenario !== null) return profileOfScenario(scenario);
    throw new InputError(
      'option-missing',
      '--readout FILE is missing: the profile that says how the readout speaks.',
      'readout',
    );
  }
  return readProfileFile(path);
}

function operatorFrom(text: string | undefined): string | undefined {
  const name = text?.trim();
  if (name !== undefined && (name === '' || name.length > NAME_LENGTH_MAX))
    throw new InputError(
      'option-value-wrong',
      `--operator must be a name of 1 to ${NAME_LENGTH_MAX} characters.`,
      'operator',
    );
  return name;
}

/** Trigger and break are seen in the force; without it nothing would start or end a pull, and no strength be found. */
function refuseWithoutForce(profile: ReadoutProfile, second: ReadoutProfile | null): void {
  const fault = second === null ? null : joinFault(profile, second);
  if (fault !== null) throw new InputError('instruments-not-joined', fault, 'second-readout');
  if (profile.channels.some((channel) => channel.quantity === 'force')) return;
  const fields = profile.channels.map(({ field, quantity }) => `${field} (${quantity})`);
  throw new InputError(
    'force-channel-missing',
    `The readout profile "${profile.name}" has no channel for the force; it has ${fields.join(', ')}: give the channel that shows the load "quantity": "force" and a unit of force ("gaugemark learn --channel FIELD=force:N" does).`,
    'channels',
  );
}

/** `say` is told sizes that no such specimen has: a file can't be asked. */
function specimenFrom(given: VerbArguments, scenario: Scenario | null, say: VerbIo['err']): SpecimenFile {
  const path = given.text('specimen');
  if (path === undefined) {
    if (scenario !== null) return scenario.specimen;
    throw new InputError(
      'option-missing',
      '--specimen FILE is missing: what is pulled, as JSON.',
      'specimen',
    );
  }
  return specimenToKeep(path, say);
}

function triggerFrom(text: string | undefined): TriggerRule {
  if (text === undefined) return DEFAULT_TRIGGER;
  const outcome = parseQuantity(text, { dimension: 'force', positive: true });
  if (!outcome.ok)
    throw new InputError(
      'option-value-wrong',
      `--trigger: ${quantityFaultSentence(outcome.fault, text, 'force')}`,
      'trigger',
    );
  return { kind: 'force', thresholdN: outcome.quantity.core, readings: 3 };
}

/** Before anything is kept: nobody is asked here, so what speaks against the calibration is told and marked in the pull. */
async function tellConcerns(
  access: RecorderAccess,
  { instruments, source, profile }: PullOrder,
  io: VerbIo,
): Promise<void> {
  const before = await access.ask('instrument.before-start', {
    instruments: [...instruments],
    source,
    profile,
  });
  for (const one of before.concerns) io.err(`Calibration: ${concernSentence(one, before.used)}`);
}

/** Makes the pull. What is returned settles with its number when its record has ended. */
async function begin(access: RecorderAccess, order: PullOrder, io: VerbIo): Promise<() => Promise<number>> {
  await closeWhatWasLeftOpen(access, io);
  await tellConcerns(access, order, io);
  const { specimenId } = await access.ask('specimen.save', {
    specimen: order.specimen,
    ...(order.operator === undefined ? {} : { by: order.operator }),
  });
  const teller = new NoticeTeller(io.err);
  const ended = recordEnded(access, teller);
  // What a window watches meanwhile is let go of: a readout that is opened by "pull.ready" is recorded from its first
  // byte on, one that is open already only from now on.
  await access.ask('readout.close', {});
  const { pullId } = await access.ask('pull.ready', {
    specimenId,
    source: order.source,
    profile: order.profile,
    ...(order.second === null ? {} : { second: order.second }),
    trigger: order.trigger,
    breakRule: DEFAULT_BREAK,
    tailS: order.untilS === null ? order.tailS : null,
    instruments: [...order.instruments],
    ...(order.operator === undefined ? {} : { operator: order.operator }),
  });
  return () => recorded({ access, order, io, teller }, pullId, ended);
}

interface Recorded {
  readonly access: RecorderAccess;
  readonly order: PullOrder;
  readonly io: VerbIo;
  readonly teller: NoticeTeller;
}

async function recorded(
  { access, order, io, teller }: Recorded,
  pullId: number,
  ended: (pullId: number) => Promise<void>,
): Promise<number> {
  const { readout, second, notices } = await access.ask('session.get', {});
  for (const standing of notices) teller.take(standing);
  io.err(
    `Recording pull ${pullId} from ${readout?.words ?? placeOf(order.source)}${second === null ? '' : ` and ${second.readout.words}`}. Ctrl-C closes the record.`,
  );
  const close = (): void => {
    access.ask('pull.close', {}).catch(() => undefined);
  };
  process.on('SIGINT', close);
  process.on('SIGTERM', close);
  const peakOnly = showsPeakOnly(order.profile.channels);
  if (peakOnly)
    io.err(
      `"${order.profile.name}" shows its peak alone: there is no curve, and nothing is seen of start and break. Press its print key after the break${order.untilS === null ? `; the record closes ${String(order.tailS)} s after the first line` : ''}.`,
    );
  let timer = order.untilS === null ? null : setTimeout(close, order.untilS * 1000);
  if (peakOnly && order.untilS === null)
    access.onEvent((name, event) => {
      if (name !== 'session') return;
      const { pull } = event as Session;
      if (pull?.pullId === pullId && pull.readingCount > 0) timer ??= setTimeout(close, order.tailS * 1000);
    });
  try {
    await ended(pullId);
  } finally {
    if (timer !== null) clearTimeout(timer);
    process.off('SIGINT', close);
    process.off('SIGTERM', close);
  }
  await access.ask('readout.close', {});
  return pullId;
}

/** Listens from before the record begins, so that no step is missed. */
function recordEnded(access: RecorderAccess, teller: NoticeTeller): (pullId: number) => Promise<void> {
  let latest: Session | null = null;
  let look: () => void = () => undefined;
  let gone = false;
  let isOver = false;
  access.onEvent((name, event) => {
    if (name === 'session') {
      latest = event as Session;
      look();
    } else if (name === 'notice' && !isOver) {
      // With the readout that is closed afterwards its troubles go too; that tells nobody anything.
      teller.take(event as Notice);
    }
  });
  access.onGone(() => {
    gone = true;
    look();
  });
  return (pullId) =>
    new Promise((done, fail) => {
      let closing = false;
      look = () => {
        if (gone)
          fail(
            new JobError(
              'recorder-gone',
              `The recorder has ended; pull ${pullId} is kept in the archive as far as it came.`,
            ),
          );
        else if (latest?.pull?.pullId !== pullId) return;
        else if (latest.state === 'ended') {
          isOver = true;
          done();
        } else if (latest.readout?.link === 'finished' && !closing) {
          // A replay has no more; nothing else would end the record.
          closing = true;
          access.ask('pull.close', {}).catch(fail);
        }
      };
      look();
    });
}

/** A record that an earlier recorder left open is ended first: it holds everything that was kept of it. */
async function closeWhatWasLeftOpen(access: RecorderAccess, io: VerbIo): Promise<void> {
  const { state, pull, recorder } = await access.ask('session.get', {});
  if (pull === null || state === 'ended') return;
  if (recorder.pid !== process.pid)
    throw new JobError(
      'pull-open',
      `Pull ${pull.pullId} is being recorded into this archive now; wait until its record has ended.`,
    );
  await access.ask('pull.close', {});
  io.err(
    `Pull ${pull.pullId} had been left open by a recorder that ended; its record has been closed with all that was kept of it.`,
  );
}
