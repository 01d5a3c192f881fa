/** The pulls of an archive as lines of text and as data: local time, peak, strength, operator, whether readings were simulated or replayed. */
import type { PullLine } from '../../core/contract/pull-requests.ts';
import type { SearchQuery } from '../../core/contract/search-requests.ts';
import { momentText } from '../../core/exchange/export/moment-text.ts';
import { ORIGIN_MARKS } from '../../core/pull/readings-origin.ts';
import { dateOfPull } from '../../core/pull/stated-day.ts';
import { type DisplaySystem, inDisplayUnit } from '../../core/quantity/display-unit.ts';
import { numberText } from '../../core/quantity/number-text.ts';
import type { UnitSymbol } from '../../core/quantity/units.ts';
import { area } from '../../core/results/area.ts';
import { measuredInInches } from '../../core/results/specimen-findings.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import { allPages } from './all-pages.ts';
import { judgeAll } from './found-pulls.ts';
import { indexMade } from './index-made.ts';
import type { RecorderAccess } from './recorder-access.ts';
import { asksForVerdicts } from './search-flags.ts';

/** Pulls asked for at once. */
const PAGE = 200;
/** Pulls whose moment and specimen are asked for at the same time. */
const ASKED_TOGETHER = 50;
/** Sets asked for at once. */
const SET_PAGE = 50;
const PEAK_DIGITS = 5;
const STRENGTH_DIGITS = 4;

export interface ListedPull extends PullLine {
  /** ISO 8601 with the offset of the place; in UTC with "Z" where that was not kept. */
  readonly startedLocally: string;
  readonly simulated: boolean;
  /** Recorded peak over the original cross-section: a look at the list, not the result of an evaluation. */
  readonly peakOverAreaMpa: number | null;
  readonly measuredIn: 'si' | 'us';
  /** In the newest set that the pull is in; null in none, undefined where it was not asked for. */
  readonly verdict?: PullVerdict | null;
}

export interface PullVerdict {
  readonly setId: number;
  readonly setName: string;
  /** Null while it can't be judged. */
  readonly outcome: string | null;
}

interface ListRequest {
  readonly search: string | undefined;
  readonly verdicts: boolean;
  readonly filters: SearchQuery;
  /** How far a search index is that is being made. */
  readonly note: (words: string) => void;
}

/** Null where there is no filter. */
async function filtered(
  access: RecorderAccess,
  { filters, note }: Pick<ListRequest, 'filters' | 'note'>,
): Promise<ReadonlySet<number> | null> {
  if (Object.keys(filters).length === 0) return null;
  await indexMade(access, note);
  if (asksForVerdicts(filters)) await judgeAll(access);
  return new Set((await access.ask('archive.found', { query: filters })).pullIds);
}

/** All of them that fit the search, newest first. `verdicts`: the sets are judged anew, which takes its time. */
export async function listedPulls(
  access: RecorderAccess,
  { search, verdicts, ...filtering }: ListRequest,
): Promise<ListedPull[]> {
  const fits = await filtered(access, filtering);
  const lines = (
    await allPages((at) =>
      access.ask('pull.list', { limit: PAGE, ...(search === undefined ? {} : { search }), ...at }),
    )
  ).filter(({ pullId }) => fits?.has(pullId) ?? true);
  const judged = verdicts ? await verdictsByPull(access, new Set(lines.map((line) => line.pullId))) : null;
  const pulls: ListedPull[] = [];
  for (let at = 0; at < lines.length; at += ASKED_TOGETHER)
    pulls.push(
      ...(await Promise.all(
        lines.slice(at, at + ASKED_TOGETHER).map(async (line) => ({
          ...line,
          ...(await factsOf(access, line)),
          ...(judged === null ? {} : { verdict: judged.get(line.pullId) ?? null }),
        })),
      )),
    );
  return pulls;
}

async function factsOf(
  access: RecorderAccess,
  { pullId, peakForceN, readings }: PullLine,
): Promise<Omit<ListedPull, keyof PullLine | 'verdict'>> {
  const [{ startedWallMs, startedUtcOffsetMinutes }, { specimen }] = await Promise.all([
    access.ask('pull.get', { pullId }),
    access.ask('pull.specimen', { pullId }),
  ]);
  const read = readSpecimen(specimen);
  const section = read.ok ? area(read.specimen.geometry) : null;
  return {
    startedLocally: momentText(startedWallMs, startedUtcOffsetMinutes),
    simulated: readings === 'simulated' || readings === 'imported-simulated',
    peakOverAreaMpa: peakForceN !== null && section?.ok === true ? peakForceN / section.area.areaMm2 : null,
    measuredIn: read.ok && measuredInInches(read.specimen) ? 'us' : 'si',
  };
}

/** Newest set first, so that the first verdict found of a pull is the one that counts. */
async function verdictsByPull(
  access: RecorderAccess,
  wanted: ReadonlySet<number>,
): Promise<ReadonlyMap<number, PullVerdict>> {
  const found = new Map<number, PullVerdict>();
  const sets = await allPages((at) => access.ask('set.list', { limit: SET_PAGE, ...at }));
  for (const { setId, name } of sets) {
    const { members } = await access.ask('set.get', { setId });
    const open = members.filter(
      ({ pullId, voided }) => voided === null && pullId !== null && wanted.has(pullId) && !found.has(pullId),
    );
    if (open.length === 0) continue;
    const verdict = await access.ask('set.judge', { setId });
    for (const { pullId, setMemberId } of open) {
      const own = verdict.members.find((member) => member.setMemberId === setMemberId);
      if (pullId !== null) found.set(pullId, { setId, setName: name, outcome: own?.outcome ?? null });
    }
  }
  return found;
}

/** One line a pull. Without `units` each as its specimen was measured. */
export function pullListText(pulls: readonly ListedPull[], units: DisplaySystem | undefined): string {
  const rows = pulls.map((pull) => {
    const system = units ?? pull.measuredIn;
    return {
      id: String(pull.pullId),
      started: dateOfPull(
        { pulledOn: pull.pulledOn, started: pull.startedLocally },
        { asRecorded: minuteText },
      ),
      specimen: pull.specimenName,
      peak: valueText(pull.peakForceN, 'N', system, PEAK_DIGITS),
      strength: valueText(pull.peakOverAreaMpa, 'MPa', system, STRENGTH_DIGITS),
      facts: facts(pull).join(', '),
    };
  });
  const width = (key: keyof (typeof rows)[number]): number =>
    Math.max(HEAD[key].length, ...rows.map((row) => row[key].length));
  return [HEAD, ...rows]
    .map((row) =>
      [
        row.id.padStart(width('id')),
        row.started.padEnd(width('started')),
        row.specimen.padEnd(width('specimen')),
        row.peak.padStart(width('peak')),
        row.strength.padStart(width('strength')),
        row.facts,
      ]
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

const HEAD = {
  id: 'pull',
  started: 'begun',
  specimen: 'specimen',
  peak: 'peak',
  strength: 'peak/S0',
  facts: '',
} as const satisfies Readonly<Record<string, string>>;

function facts(pull: ListedPull): string[] {
  const { verdict, operator, gapCount, readingCount, state, voided } = pull;
  return [
    ...(pull.readings === undefined ? [] : [ORIGIN_MARKS[pull.readings]]),
    ...(pull.typed === null ? [] : ['TYPED from the display']),
    ...(voided === null ? [] : [`VOID: ${voided.reason}`]),
    ...(verdict === null || verdict === undefined
      ? []
      : [`${verdict.outcome?.toUpperCase() ?? 'not judged yet'} in set ${verdict.setId} ${verdict.setName}`]),
    ...(pull.typed === null ? [`${readingCount} readings`] : []),
    state,
    ...(gapCount === 0 ? [] : [`${gapCount} ${gapCount === 1 ? 'gap' : 'gaps'}`]),
    ...(operator === null ? [] : [`by ${operator}`]),
  ];
}

/** "2026-03-04 10:30 +01:00". */
function minuteText(moment: string): string {
  const [, day, minute, offset] = /^(\S+)T(\d\d:\d\d)\S*?(Z|[+-]\d\d:\d\d)$/.exec(moment) ?? [];
  return day === undefined ? moment : `${day} ${minute ?? ''} ${offset === 'Z' ? 'UTC' : (offset ?? '')}`;
}

function valueText(value: number | null, unit: UnitSymbol, system: DisplaySystem, digits: number): string {
  if (value === null) return '–';
  const shown = inDisplayUnit(value, unit, system);
  return `${numberText(shown.value, digits)} ${shown.unit}`;
}
