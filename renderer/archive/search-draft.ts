/** A search as a person fills it in, all of it text; what it means is a query, or the field that can't be read. */
import { type SearchQuery, searchQuery } from '../../core/contract/search-requests.ts';
import { typedDay } from '../../core/calendar-day.ts';
import { parseQuantity } from '../../core/quantity/parse-quantity.ts';
import { convert } from '../../core/quantity/units.ts';
import { type UnitSystem, displayUnit } from '../numbers/display-unit.ts';

export interface SearchDraft {
  readonly text: string;
  readonly fromDay: string;
  readonly toDay: string;
  readonly set: string;
  readonly rules: string;
  readonly baseMetal: string;
  readonly filler: string;
  readonly geometry: string;
  readonly broke: string;
  readonly verdict: string;
  readonly strengthMin: string;
  readonly strengthMax: string;
  readonly questionable: boolean;
  readonly interrupted: boolean;
  readonly voided: boolean;
}

export const EMPTY_SEARCH: SearchDraft = {
  text: '',
  fromDay: '',
  toDay: '',
  set: '',
  rules: '',
  baseMetal: '',
  filler: '',
  geometry: '',
  broke: '',
  verdict: '',
  strengthMin: '',
  strengthMax: '',
  questionable: false,
  interrupted: false,
  voided: false,
};

/** Filters that are set; the text is none of them. */
export function filtersSet(draft: SearchDraft): number {
  return Object.entries(draft).filter(([name, value]) => name !== 'text' && value !== '' && value !== false)
    .length;
}

export type ReadSearch =
  | { readonly ok: true; readonly query: SearchQuery }
  /** A field that is still being typed, or is wrong. */
  | { readonly ok: false; readonly field: keyof SearchDraft };

/** A strength without a unit is in that of the system. */
export function readSearch(draft: SearchDraft, system: UnitSystem): ReadSearch {
  const min = stress(draft.strengthMin, system);
  if (min === null) return { ok: false, field: 'strengthMin' };
  const max = stress(draft.strengthMax, system);
  if (max === null) return { ok: false, field: 'strengthMax' };
  const fromDay = readDay(draft.fromDay);
  if (fromDay === null) return { ok: false, field: 'fromDay' };
  const toDay = readDay(draft.toDay);
  if (toDay === null) return { ok: false, field: 'toDay' };
  const set = draft.set.trim();
  const asked = {
    text: draft.text.trim(),
    fromDay,
    toDay,
    set: /^[1-9]\d{0,14}$/.test(set) ? Number(set) : set,
    rules: draft.rules.trim(),
    baseMetal: draft.baseMetal.trim(),
    filler: draft.filler.trim(),
    geometry: draft.geometry,
    broke: draft.broke,
    verdict: draft.verdict,
    strengthMinMpa: min,
    strengthMaxMpa: max,
    questionable: draft.questionable,
    interrupted: draft.interrupted,
    voided: draft.voided,
  };
  const checked = searchQuery.safeParse(
    Object.fromEntries(
      Object.entries(asked).filter(([, value]) => value !== '' && value !== undefined && value !== false),
    ),
  );
  if (checked.success) return { ok: true, query: checked.data };
  const part = checked.error.issues[0]?.path[0];
  return {
    ok: false,
    field:
      part === 'strengthMinMpa'
        ? 'strengthMin'
        : part === 'strengthMaxMpa'
          ? 'strengthMax'
          : ((part as keyof SearchDraft | undefined) ?? 'text'),
  };
}

/** A saved query in the fields again. */
export function draftOf(query: SearchQuery, system: UnitSystem): SearchDraft {
  const unit = displayUnit('stress', system);
  const strength = (mpa: number | undefined): string =>
    mpa === undefined ? '' : `${String(Number(convert(mpa, 'MPa', unit).toPrecision(6)))} ${unit}`;
  return {
    ...EMPTY_SEARCH,
    text: query.text ?? '',
    fromDay: query.fromDay ?? '',
    toDay: query.toDay ?? '',
    set: query.set === undefined ? '' : String(query.set),
    rules: query.rules ?? '',
    baseMetal: query.baseMetal ?? '',
    filler: query.filler ?? '',
    geometry: query.geometry ?? '',
    broke: query.broke ?? '',
    verdict: query.verdict ?? '',
    strengthMin: strength(query.strengthMinMpa),
    strengthMax: strength(query.strengthMaxMpa),
    questionable: query.questionable === true,
    interrupted: query.interrupted === true,
    voided: query.voided === true,
  };
}

/** A day as somebody types it, without a time; undefined where nothing is typed, null where it is none. */
export function readDay(text: string): string | undefined | null {
  if (text.trim() === '') return undefined;
  const read = typedDay(text);
  return read === null || read.time !== null ? null : read.day;
}

function stress(text: string, system: UnitSystem): number | undefined | null {
  if (text.trim() === '') return undefined;
  const read = parseQuantity(text, { dimension: 'stress', unitIfMissing: displayUnit('stress', system) });
  return read.ok ? read.quantity.core : null;
}
