/** What a search has found as lines for a spreadsheet: the marked pulls, or all that were found. */
import type { FoundPull } from '../../core/contract/search-requests.ts';
import { HITS_PER_PAGE_MAX } from '../../core/contract/search-requests.ts';
import type { UnitSymbol } from '../../core/quantity/units.ts';
import { convert } from '../../core/quantity/units.ts';
import { say } from '../design/said.tsx';
import { dateOfFound } from '../exchange/day-of-pull.ts';
import { tabbed } from '../keys/copy-rows.ts';
import { displayUnit, loadUnit } from '../numbers/display-unit.ts';
import { fixed, placesOf } from '../numbers/format.ts';
import { fileOfPull } from '../store/elsewhere.ts';
import { request } from '../store/session-store.ts';
import { language, units } from '../store/view-settings.ts';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';
import { saidOfSet, unrounded } from './found-columns.ts';
import { type FoundColumn, columns, found } from './found-pulls.ts';
import { marked } from './marked-pulls.ts';

/** More than a person pastes; a whole archive is exported as a table. */
export const COPIED_PULLS_MAX = 10_000;

/** Puts them on the clipboard and says how many; the marked ones are all where nothing is marked. */
export async function copyFound(
  columnName: (column: FoundColumn) => string,
  which: 'all' | 'marked',
): Promise<void> {
  const text = words.value.copy;
  // Of the table: pulls of other archives are marked for being looked at together only.
  const own = marked.value.filter((pullId) => fileOfPull(pullId) === null);
  const ids = which === 'marked' && own.length > 0 ? own : [...(found.value ?? [])];
  const copied = ids.slice(0, COPIED_PULLS_MAX);
  const pulls: FoundPull[] = [];
  for (let from = 0; from < copied.length; from += HITS_PER_PAGE_MAX) {
    const answer = await request('archive.lines', { pullIds: copied.slice(from, from + HITS_PER_PAGE_MAX) });
    if (!answer.ok) {
      say(told(answer.fault.sentence));
      return;
    }
    pulls.push(...answer.value.items);
  }
  const done = await request('window.copy-text', {
    text: tabbed(foundRows(pulls, columns.value, columnName)),
  });
  if (!done.ok) say(told(done.fault.sentence));
  else if (copied.length < ids.length) say(text.copiedSome(String(copied.length), String(ids.length)));
  else say(text.copied(String(pulls.length + 1)));
}

const STRESSES: ReadonlySet<FoundColumn> = new Set<FoundColumn>(['strength', 'unrounded', 'yield']);

/** A head with the units, then a line for each pull; numbers stand alone, so that they can be reckoned with. */
export function foundRows(
  pulls: readonly FoundPull[],
  shown: readonly FoundColumn[],
  columnName: (column: FoundColumn) => string,
): string[][] {
  const { find, set, fracture } = words.value;
  const stress = displayUnit('stress', units.value);
  const load = loadUnit(Math.max(0, ...pulls.map((pull) => pull.peakForceN ?? 0)), units.value);
  const number = (value: number | null, from: UnitSymbol, to: UnitSymbol): string =>
    value === null ? '' : forReckoning(fixed(convert(value, from, to), placesOf(to), language.value));
  const places: Readonly<Record<string, string>> = fracture.places;
  const kept = shown.filter((column) => column !== 'picture');
  const head = kept.map((column) => {
    const unit =
      column === 'peak' ? load : column === 'elongation' ? '%' : STRESSES.has(column) ? stress : null;
    return unit === null ? columnName(column) : `${columnName(column)}, ${unit}`;
  });
  const cell = (pull: FoundPull, column: FoundColumn): string => {
    switch (column) {
      case 'picture':
        return '';
      case 'specimen':
        return pull.specimenName;
      case 'when':
        return dateOfFound(pull);
      case 'peak':
        return number(pull.peakForceN, 'N', load);
      case 'strength':
        return number(pull.strengthMpa, 'MPa', stress);
      case 'unrounded':
        return pull.strengthMpa === null ? '' : forReckoning(unrounded(pull.strengthMpa, stress));
      case 'yield':
        return number(pull.yieldMpa, 'MPa', stress);
      case 'elongation':
        return number(pull.elongationPercent, '%', '%');
      case 'rules':
      case 'baseMetal':
      case 'filler':
      case 'heat':
      case 'lot':
      case 'welder':
        return saidOfSet(pull, column) ?? '';
      case 'verdict':
        if (!pull.verdictKnown) return find.notJudged;
        return pull.verdict === null
          ? ''
          : `${set.outcomes[pull.verdict]}${pull.questionable ? `, ${find.questionable}` : ''}`;
      case 'broke':
        return pull.place === null ? '' : (places[pull.place] ?? pull.place);
      case 'set':
        return pull.setName ?? '';
      case 'operator':
        return pull.operator ?? '';
      case 'readings':
        return String(pull.readingCount);
      case 'questionable':
        if (!pull.verdictKnown) return find.notJudged;
        return pull.questionable ? find.questionable : '';
    }
  };
  const mark = (pull: FoundPull): string => {
    const origin = pull.origin === 'typed' ? words.value.typed.mark : originMark(pull.origin);
    return [origin, ...(pull.voidReason === null ? [] : [find.voided])]
      .filter((one) => one !== '')
      .join(', ');
  };
  // Where no specimen gave the readings, and what does not count, goes with the line.
  return [
    [words.value.copy.number, ...head, words.value.copy.noted],
    ...pulls.map((pull) => [String(pull.pullId), ...kept.map((column) => cell(pull, column)), mark(pull)]),
  ];
}

/** Groups of three are for eyes; a spreadsheet would take them for text. */
const forReckoning = (number: string): string => number.replaceAll('\u202f', '');

function originMark(origin: FoundPull['origin']): string {
  const { readings } = words.value.set;
  return origin in readings ? readings[origin as keyof typeof readings].mark : '';
}
