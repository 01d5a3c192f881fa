/** Finding pulls again: one text over everything written, filters, pages by key. */
import { z } from 'zod';
import { atFirstUse } from '../at-first-use.ts';
import { OUTCOMES } from '../acceptance/verdict.ts';
import { isDay } from '../calendar-day.ts';
import { NAME_LENGTH_MAX, STRENGTH_MPA_MAX, TEXT_LENGTH_MAX } from '../limits.ts';
import { statedDay } from '../pull/stated-day.ts';
import type { GeometryKind } from '../specimen/specimen-file.ts';
import { column, rowId, wallMs } from './message.ts';
import { FRACTURE_PLACES } from './record.ts';

/** Kinds of cross-section that a specimen can have. */
export const GEOMETRIES = [
  'flat',
  'round',
  'tube',
  'pipe-strip',
  'weighed',
  'unmeasured',
] as const satisfies readonly GeometryKind[];

/** Verdict of the set that a pull is in; `not-judged`: of none, or not judged since something it rests on changed. */
export const FOUND_VERDICTS = [...OUTCOMES, 'not-judged'] as const;

/** Hits of one page. */
export const HITS_PER_PAGE_MAX = 500;
export const HITS_PER_PAGE = 50;
/** Numbers of pulls in one answer: 8 bytes each. */
export const FOUND_PULLS_MAX = 2_000_000;
export const SAVED_SEARCHES_MAX = 100;
export const THUMBNAILS_PER_REQUEST_MAX = 60;
/** Sets judged for one answer with lines: each takes an evaluation a member. */
export const JUDGED_FOR_LINES_MAX = 50;

const name = z.string().trim().min(1).max(NAME_LENGTH_MAX);
/** A day by the clock of the place. */
const day = z.string().refine(isDay, 'is no date; write it like 2026-03-04');
const strength = z.number().nonnegative().max(STRENGTH_MPA_MAX);

/** Every condition must hold; without any, every pull is found. */
export const searchQuery = atFirstUse(() =>
  z
    .strictObject({
      /** Words, each of which must begin a word of what is written. No other meaning has any sign in it. */
      text: z.string().max(NAME_LENGTH_MAX).optional(),
      fromDay: day.optional(),
      toDay: day.optional(),
      /** A set by its number, or by words of its name. */
      set: z.union([rowId, name]).optional(),
      /** Words of a rule pack's name, or its sign. */
      rules: name.optional(),
      baseMetal: name.optional(),
      filler: name.optional(),
      geometry: z.enum(GEOMETRIES).optional(),
      broke: z.enum(FRACTURE_PLACES).optional(),
      /** Rm of the evaluation that stands, over the S0 of today; else recorded peak over S0, or largest recorded stress. */
      strengthMinMpa: strength.optional(),
      strengthMaxMpa: strength.optional(),
      verdict: z.enum(FOUND_VERDICTS).optional(),
      questionable: z.boolean().optional(),
      interrupted: z.boolean().optional(),
      voided: z.boolean().optional(),
    })
    .refine(({ fromDay, toDay }) => fromDay === undefined || toDay === undefined || fromDay <= toDay, {
      path: ['toDay'],
      message: 'is before the first day',
    })
    .refine(
      ({ strengthMinMpa: min, strengthMaxMpa: max }) => min === undefined || max === undefined || min <= max,
      { path: ['strengthMaxMpa'], message: 'is below the least strength' },
    ),
);
export type SearchQuery = z.infer<typeof searchQuery>;

/** What is said of the set. */
const SAID_OF_SET = ['rules', 'base-metal', 'filler', 'heat', 'filler-lot', 'welder'] as const;
/**
 * `kept`: the order in which pulls came into this archive, which is the fastest. Whichever way, a pull that has nothing
 * in the column comes last; texts are in the order of their code points (core/archive/search/found-order.ts).
 * `started`: by date; of an imported pull by the day that was stated of it, else by the start of its record.
 */
export const SEARCH_COLUMNS = [
  'kept',
  'started',
  'specimen',
  'set',
  'operator',
  'peak',
  'strength',
  /** Both as stated: an evaluation that is kept, else what the pull was first worked out as. */
  'yield',
  'elongation',
  /** Accepted, rejected, undecided, each first without and then with doubts. */
  'verdict',
  /** From the weld metal outwards, as the places are offered. */
  'broke',
  'questionable',
  'readings',
  ...SAID_OF_SET,
] as const;
export const searchOrder = z.strictObject({
  by: z.enum(SEARCH_COLUMNS),
  descending: z.boolean(),
});
export type SearchOrder = z.infer<typeof searchOrder>;
/** Of the others the largest or newest is wanted first. */
export const SORTED_AS_TEXT: ReadonlySet<SearchOrder['by']> = new Set([
  'specimen',
  'set',
  'operator',
  ...SAID_OF_SET,
] as const);
export const NEWEST_FIRST: SearchOrder = { by: 'kept', descending: true };

/** Whether finding it in this order rests on verdicts, which may have to be judged first. */
export const needsVerdicts = ({
  query,
  order,
}: {
  readonly query: SearchQuery;
  readonly order: SearchOrder;
}): boolean =>
  query.verdict !== undefined ||
  query.questionable !== undefined ||
  order.by === 'verdict' ||
  order.by === 'questionable';

/** A pull as a line of what was found. */
export const foundPull = atFirstUse(() =>
  z.strictObject({
    pullId: rowId,
    specimenId: rowId,
    specimenName: z.string(),
    startedWallMs: wallMs,
    /** ISO 8601 with the offset of the place; in UTC with "Z" where that was not kept. */
    started: z.string(),
    /** Of an imported pull the day that a person stated, "2019-05-14" or "2019-05-14T10:30"; by it the pull is found, sorted and drawn. */
    pulledOn: statedDay.nullable(),
    /** By which it is sorted by date: the stated day, else the start of its record. Before 1970 below zero. */
    datedWallMs: z.number().int(),
    setId: rowId.nullable(),
    setName: z.string().nullable(),
    /** Its sign, and its name as the set keeps it. */
    rulePack: z.string().nullable(),
    rulePackName: z.string().nullable(),
    /** Of the set: designations and heats of its base metals, each once, joined by a comma. */
    baseMetal: z.string().nullable(),
    filler: z.string().nullable(),
    heat: z.string().nullable(),
    fillerLot: z.string().nullable(),
    welder: z.string().nullable(),
    geometry: z.string(),
    measuredIn: z.enum(['si', 'us']),
    place: z.string().nullable(),
    operator: z.string().nullable(),
    /** Kind of the source: serial, simulated, typed, imported …; of a file that says so: imported-simulated, imported-replay */
    origin: z.string(),
    ended: z.boolean(),
    readingCount: z.number().int().nonnegative(),
    peakForceN: z.number().nullable(),
    strengthMpa: z.number().nullable(),
    /**
     * Of the evaluation that is kept, else as the pull was first worked out by the sizes of today; null until then, and
     * where it gives none. The yield is the one that rules compare: Rp0.2, else Rt0.5, ReH, ReL.
     */
    yieldMpa: z.number().nullable(),
    elongationPercent: z.number().nullable(),
    interrupted: z.boolean(),
    voidReason: z.string().nullable(),
    verdict: z.enum(OUTCOMES).nullable(),
    questionable: z.boolean(),
    /** False where its set was not judged since something changed that a verdict rests on; `verdict` is null then. */
    verdictKnown: z.boolean(),
  }),
);
export type FoundPull = z.infer<typeof foundPull>;

/** Where a page ended; for the next request as it is. */
const key = z.string().max(TEXT_LENGTH_MAX);

export const savedSearch = z.strictObject({ name, query: searchQuery });
export type SavedSearch = z.infer<typeof savedSearch>;

/** See core/curve/thumbnail.ts; empty where a pull has no curve. */
export const smallCurve = z.strictObject({ pullId: rowId, bytes: column('Uint8Array') });
export type SmallCurve = z.infer<typeof smallCurve>;

/** While the search index is made anew, newest pulls first: how many pulls are in it. */
export const indexProgress = atFirstUse(() =>
  z.strictObject({
    made: z.number().int().nonnegative(),
    of: z.number().int().nonnegative(),
  }),
);
export type IndexProgress = z.infer<typeof indexProgress>;
/** Null where everything can be found; otherwise what was answered is of the pulls that are in the index. */
const index = indexProgress.nullable();
/**
 * Sets with verdicts that are not known, where what was asked rests on verdicts; otherwise 0. Nothing of these sets is
 * found by a verdict until they are judged (`archive.judge-sets`).
 */
export const setsNotJudged = z.number().int().nonnegative();

export const searchRequests = {
  'archive.search': {
    request: atFirstUse(() =>
      z.strictObject({
        query: searchQuery,
        order: searchOrder.default(NEWEST_FIRST),
        after: key.optional(),
        limit: z.number().int().min(1).max(HITS_PER_PAGE_MAX).default(HITS_PER_PAGE),
      }),
    ),
    reply: atFirstUse(() => z.strictObject({ items: z.array(foundPull), next: key.nullable(), index })),
  },
  /** The numbers of all pulls found, in order: for a table of which only the visible rows are read. */
  'archive.found': {
    request: z.strictObject({ query: searchQuery, order: searchOrder.default(NEWEST_FIRST) }),
    reply: z.strictObject({ pullIds: column('Float64Array'), index, setsNotJudged }),
  },
  'archive.index': { request: z.strictObject({}), reply: z.strictObject({ index }) },
  /**
   * Lines of these pulls, in the order asked; a pull that is not there is left out. `judge`: so many of their sets of
   * which a verdict is not known are judged before; none while a pull is being recorded.
   */
  'archive.lines': {
    request: atFirstUse(() =>
      z.strictObject({
        pullIds: z.array(rowId).max(HITS_PER_PAGE_MAX),
        judge: z.number().int().min(0).max(JUDGED_FOR_LINES_MAX).default(0),
      }),
    ),
    reply: z.strictObject({ items: z.array(foundPull) }),
  },
  /** Made when first asked for, then kept; a pull without readings has none. */
  'archive.thumbnails': {
    request: atFirstUse(() => z.strictObject({ pullIds: z.array(rowId).max(THUMBNAILS_PER_REQUEST_MAX) })),
    reply: z.strictObject({ curves: z.array(smallCurve) }),
  },
  /**
   * Judges the sets of which a verdict is not known, at most `limit`; `left` are still to be judged. `unjudged` can't be
   * judged as they are; they are tried again when something was said since. What was judged is kept with the index; where
   * an archive is only read, in memory, as long as it is open.
   */
  'archive.judge-sets': {
    request: atFirstUse(() => z.strictObject({ limit: z.number().int().min(1).max(1000) })),
    reply: atFirstUse(() =>
      z.strictObject({ judged: z.number().int(), left: z.number().int(), unjudged: z.number().int() }),
    ),
  },
  'archive.saved-searches': {
    request: z.strictObject({}),
    reply: z.strictObject({ searches: z.array(savedSearch) }),
  },
  /** Takes the place of one of the same name. */
  'archive.save-search': { request: savedSearch, reply: z.strictObject({}) },
  'archive.forget-search': { request: z.strictObject({ name }), reply: z.strictObject({}) },
} as const;
