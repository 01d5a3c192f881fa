/** `gaugemark simulate --port PATH`: a simulated pull, written to a port or a pty as a readout would send it. */
import { existsSync } from 'node:fs';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import type { Pace } from '../../../core/contract/source.ts';
import { shippedProfileFiles, shippedProfile } from '../../../drivers/profiles.ts';
import type { Scenario } from '../../../drivers/simulated-frame/scenario.ts';
import {
  DEFAULT_SCENARIO,
  shippedScenarios,
  shippedScenario,
} from '../../../drivers/simulated-frame/scenarios.ts';
import { READER_MS_MAX } from '../../../drivers/simulated-frame/paced-writer.ts';
import { type SentToPort, sendToPort } from '../../../drivers/simulated-frame/send-to-port.ts';
import { SimulatedFrame } from '../../../drivers/simulated-frame/simulated-frame.ts';
import { trueValues } from '../../../drivers/simulated-frame/truth.ts';
import { SourceFaultError } from '../../../drivers/transport.ts';
import { numberOption, takeArguments } from '../arguments.ts';
import { readProfileFile, readScenarioFile } from '../input-files.ts';
import { EXIT_DONE, InputError, JobError, type Verb } from '../verb.ts';

/** Longer than the tail that a pull records by default, with time for its end. */
const REST_S_DEFAULT = 10;
const REST_S_MAX = 600;

const usage = `gaugemark simulate --port PATH [options]

  Pulls a simulated specimen in a simulated frame and writes what its readout would send to a port or a pty.

  --port PATH               the port to write to; the program that records opens the other end
  --scenario FILE|NAME      ${shippedScenarios()
    .map(({ name }) => name)
    .join(', ')},
                            or a scenario file (default ${DEFAULT_SCENARIO})
  --readout FILE|NAME       speak in this readout profile instead of the scenario's
  --pace true|faster|N      at true pace (default), as fast as it is taken, or N times true pace
  --seed N                  another specimen of the same kind (default: the scenario's seed)
  --rest SECONDS            the unloaded frame goes on sending for so long after the pull, or until the reader is
                            gone (default ${REST_S_DEFAULT}), so that the reader can record its tail
  --list                    list the scenarios and the readout profiles that ship, and end
  --json                    one JSON document on stdout: what was sent, and the specimen's true values

  gaugemark simulate --port /dev/pts/4 --scenario quenched-steel --pace 5`;

const WAIT_S = READER_MS_MAX / 1000;

const OPTIONS = {
  port: { type: 'string' },
  scenario: { type: 'string' },
  readout: { type: 'string' },
  pace: { type: 'string' },
  seed: { type: 'string' },
  rest: { type: 'string' },
  list: { type: 'boolean' },
  json: { type: 'boolean' },
} as const;

const PACE_MAX = 10_000;
const SEED_MAX = 4_294_967_295;

export const verb: Verb = {
  name: 'simulate',
  summary: 'a simulated pull, written to a port as a readout would send it',
  usage,
  run: async (args, io) => {
    const given = takeArguments(args, OPTIONS, [], 'simulate');
    if (given.has('list')) {
      io.out(given.has('json') ? JSON.stringify(listOfScenarios()) : listInWords());
      return EXIT_DONE;
    }
    const path = given.text('port');
    if (path === undefined || path === '')
      throw new InputError(
        'port-not-given',
        'The port to write to is missing; give it with --port PATH.',
        'port',
      );
    const scenario = scenarioGiven(given.text('scenario') ?? DEFAULT_SCENARIO);
    const profile = profileGiven(given.text('readout'), scenario);
    const pace = paceGiven(given.text('pace'));
    const seed = seedGiven(given.text('seed')) ?? scenario.seed;
    const restS = restGiven(given.text('rest'));
    const frame = frameOf(scenario, profile, seed);
    let sent: SentToPort;
    try {
      sent = await sendToPort(frame, {
        path,
        profile,
        pace,
        restS,
        onOpen: () => {
          io.err(
            `Writing to ${path}. Where nobody reads at the other end, this waits for a reader for up to ${WAIT_S} s once the port is full.`,
          );
        },
        onWaiting: () => {
          io.err(`${path} is full and nobody reads: waiting for a reader, for up to ${WAIT_S} s.`);
        },
      });
    } catch (error) {
      if (!(error instanceof SourceFaultError)) throw error;
      const { code, sentence } = error.fault;
      // A path that is no port is a wrong input; a port that is there and can't be used is a failed job.
      if (code === 'port-missing' || code === 'not-a-port') throw new InputError(code, sentence, 'port');
      throw new JobError(code, sentence);
    }
    if (given.has('json'))
      io.out(
        JSON.stringify({
          scenario: scenario.name,
          readout: profile.name,
          port: path,
          seed,
          ...sent,
          trueValues: trueValues(scenario),
        }),
      );
    else
      io.out(
        `${scenario.title}: ${String(sent.lines)} lines (${String(sent.bytes)} bytes) written to ${path} in ${sent.seconds.toFixed(1)} s.`,
      );
    return EXIT_DONE;
  },
};

function listOfScenarios(): object {
  return {
    scenarios: shippedScenarios().map(({ name, title, profile, rateHz }) => ({
      name,
      title,
      readout: profile,
      rateHz,
    })),
    readouts: shippedProfileFiles().map(({ file, profile: { name, notes } }) => ({
      name: file,
      title: name,
      notes: notes ?? '',
    })),
  };
}

function listInWords(): string {
  return [
    'Scenarios, for --scenario:',
    ...shippedScenarios().map(({ name, title }) => `  ${name.padEnd(26)}${title}`),
    'Readout profiles, for --readout (files of these names in fixtures/readouts):',
    ...shippedProfileFiles().map(({ file, profile }) => `  ${file.padEnd(26)}${profile.name}`),
  ].join('\n');
}

/** A file where there is one of that name, else a scenario that ships. */
function scenarioGiven(text: string): Scenario {
  const shipped = shippedScenario(text);
  if (shipped !== null) return shipped;
  if (!existsSync(text))
    throw new InputError(
      'scenario-unknown',
      `There is neither a scenario nor a file "${text.slice(0, 200)}"; the scenarios are ${shippedScenarios()
        .map(({ name }) => name)
        .join(', ')}.`,
      'scenario',
    );
  return readScenarioFile(text);
}

function profileGiven(text: string | undefined, scenario: Scenario): ReadoutProfile {
  const name = text ?? scenario.profile;
  const shipped = shippedProfile(name);
  if (shipped !== null) return shipped;
  if (text === undefined || !existsSync(name))
    throw new InputError(
      'readout-unknown',
      `There is no readout profile "${name.slice(0, 200)}"; those that ship are ${shippedProfileFiles()
        .map(({ file }) => file)
        .join(', ')}.`,
      'readout',
    );
  return readProfileFile(name);
}

function paceGiven(text: string | undefined): Pace {
  if (text === undefined || text === 'true') return 'true';
  if (text === 'faster') return 'faster';
  return numberOption('pace', text, { above: 0, max: PACE_MAX }) ?? 'true';
}

function restGiven(text: string | undefined): number {
  return text === '0' ? 0 : (numberOption('rest', text, { above: 0, max: REST_S_MAX }) ?? REST_S_DEFAULT);
}

function seedGiven(text: string | undefined): number | undefined {
  const seed = numberOption('seed', text, { above: -1, max: SEED_MAX });
  if (seed !== undefined && !Number.isInteger(seed))
    throw new InputError('option-value-wrong', `--seed "${String(text)}" must be a whole number.`, 'seed');
  return seed;
}

function frameOf(scenario: Scenario, profile: ReadoutProfile, seed: number): SimulatedFrame {
  try {
    return new SimulatedFrame(scenario, { profile, seed });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new InputError(
      'scenario-wrong',
      `The scenario "${scenario.name}" makes no pull: ${error.message}.`,
      'scenario',
    );
  }
}
