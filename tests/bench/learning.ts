/**
 * From how many seconds of its lines each readout profile that ships is learned rightly, over pulls and a frame at rest,
 * and what learning five seconds costs in processor time against reading the same lines once with the profile found.
 */
import { type ReadoutProfile, expectedUnitOf } from '../../core/contract/readout-profile.ts';
import { createParser } from '../../drivers/create-parser.ts';
import { type Learnt, learnLines } from '../../drivers/learn/learn-lines.ts';
import { shippedProfiles } from '../../drivers/profiles.ts';
import { shippedScenarios } from '../../drivers/simulated-frame/scenarios.ts';
import { SimulatedFrame } from '../../drivers/simulated-frame/simulated-frame.ts';
import { alternate, processorMilliseconds } from './support/rounds.ts';
import { type Row, comparedRow, goalText, printTable } from './support/table.ts';

const SECONDS_MAX = 5;
const SECONDS = [1, 2, 3, 4, SECONDS_MAX];
/** Where in a pull somebody begins to listen: at rest, in the rise, later. */
const BEGINNINGS_S = [0, 1, 4, 8];
/** Presses of a print key come when a person presses, each after another pull; so many in five seconds of pressing. */
const PRESSES_A_SECOND = 1;
const ROUNDS = 7;

interface Window {
  readonly beginS: number;
  readonly lines: readonly { readonly elapsedUs: number; readonly bytes: Buffer }[];
}

/** A profile's lines in windows of five seconds, at the rate at which it sends, from every scenario that ships. */
function windowsOf(profile: ReadoutProfile): Window[] {
  const rateHz = profile.mode.kind === 'print-key' ? PRESSES_A_SECOND : (profile.rateHz ?? 10);
  return shippedScenarios().flatMap((scenario) => {
    const lines = [
      ...new SimulatedFrame(
        { ...scenario, rateHz, resolution: { ...scenario.resolution, ...forceSteps(profile) } },
        { profile },
      ).lines(),
    ];
    return BEGINNINGS_S.map((beginS) => ({
      beginS,
      lines: lines.filter(
        ({ elapsedUs }) => elapsedUs >= beginS * 1e6 && elapsedUs < (beginS + SECONDS_MAX) * 1e6,
      ),
    }));
  });
}

/** The scenarios state the last digit of a display in N or lbf; one in kN has three decimals. */
const forceSteps = ({ channels }: ReadoutProfile): Record<string, string> =>
  Object.fromEntries(
    channels
      .filter((channel) => channel.quantity === 'force' && expectedUnitOf(channel) === 'kN')
      .map(({ field }) => [field, '0.001']),
  );

const bytesOf = ({ beginS, lines }: Window, seconds: number): Buffer =>
  Buffer.concat(
    lines.filter(({ elapsedUs }) => elapsedUs < (beginS + seconds) * 1e6).map(({ bytes }) => bytes),
  );

/**
 * Right: every line is read, each channel shows what the profile itself reads, nothing is named or given a unit that it
 * hasn't, and what the lines say (a unit inside the line) is found.
 */
function isRight(learnt: Learnt | null, profile: ReadoutProfile, bytes: Buffer): boolean {
  if (learnt === null || learnt.channels.length !== profile.channels.length) return false;
  const named = profile.channels.every(({ quantity, unit }, at) => {
    const found = learnt.channels[at];
    const said = unit.kind === 'in-line' ? unit.expected : null;
    if (found === undefined) return false;
    return said === null
      ? [null, quantity].includes(found.quantity)
      : found.quantity === quantity && found.unit === said;
  });
  return named && valuesOf(learnt.profile, bytes) === valuesOf(profile, bytes);
}

const valuesOf = (profile: ReadoutProfile, bytes: Buffer): string => {
  const parser = createParser(profile);
  return [...parser.push(0, bytes, 0), ...parser.end()]
    .map(({ outcome }) =>
      outcome.kind === 'reading'
        ? outcome.reading.channels
            .map(({ status, mantissa, exponent }) => `${status} ${String(mantissa)}e${String(exponent)}`)
            .join(' ')
        : 'no reading',
    )
    .join('\n');
};

const rows: Row[] = [];
for (const profile of shippedProfiles().filter(({ format }) => format.kind !== 'registers')) {
  const windows = windowsOf(profile);
  const rightAt = SECONDS.map(
    (seconds) =>
      windows.filter((window) => {
        const bytes = bytesOf(window, seconds);
        return isRight(learnLines(bytes), profile, bytes);
      }).length,
  );
  const [longest] = windows;
  if (longest === undefined) throw new Error('a scenario ships');
  const bytes = bytesOf(longest, SECONDS_MAX);
  const found = learnLines(bytes)?.profile ?? profile;
  let heard = 0;
  const { floor, measured } = await alternate(ROUNDS, {
    floor: () => processorMilliseconds(() => (heard += valuesOf(found, bytes).length)),
    measured: () => processorMilliseconds(() => (heard += learnLines(bytes)?.readings ?? 0)),
  });
  if (heard === 0) throw new Error('nothing was learned');
  const all = windows.length;
  const first = SECONDS[rightAt.findIndex((right) => right === all)];
  rows.push({
    ...comparedRow({ what: profile.name, unit: 'ms', floor, measured }),
    goal: goalText(`right within 5 s in ${String(all)} of ${String(all)}`, rightAt.at(-1) === all),
    spread: `${rightAt.join(' / ')} right after ${SECONDS.join(' / ')} s${first === undefined ? '' : `, all from ${String(first)} s`}`,
  });
}

printTable('Learning the readouts that ship, five seconds of their lines', rows, [
  'Floor: the same lines read once by the profile that was found. The last column counts windows of five scenarios from four moments each.',
  'Registers (Modbus) have no lines and are not learned; a print key sends a line a press, here one a second.',
]);
