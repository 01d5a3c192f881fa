/** What is measured on the broken specimen, as typed: which fields a shape has, and the record that it becomes. */
import { area } from '../../../core/results/area.ts';
import { elongationAfterFracture } from '../../../core/results/elongation-after-fracture.ts';
import { reductionOfArea } from '../../../core/results/reduction-of-area.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import type { GeometryKind, SpecimenFile } from '../../../core/specimen/specimen-file.ts';

export type FinalDimension = 'finalGaugeLength' | 'finalWidth' | 'finalThickness' | 'finalDiameter';

/** The final section has a standard form for round and flat only; the halves are refitted whatever the shape. */
export function finalDimensionsOf(kind: GeometryKind): readonly FinalDimension[] {
  if (kind === 'flat') return ['finalGaugeLength', 'finalWidth', 'finalThickness'];
  return kind === 'round' ? ['finalGaugeLength', 'finalDiameter'] : ['finalGaugeLength'];
}

/** Entries for A by intervals, for a fracture near a mark, in the order in which they are measured. */
export const INTERVAL_ENTRIES = ['intervals', 'between', 'betweenLength', 'beyond', 'beyondToo'] as const;
export type IntervalEntry = (typeof INTERVAL_ENTRIES)[number];

export interface AfterFractureDraft {
  readonly measured: Readonly<Record<FinalDimension, readonly string[]>>;
  readonly distanceToNearestMark: string;
  readonly intervals: Readonly<Record<IntervalEntry, string>>;
}

export function draftOf(file: SpecimenFile): AfterFractureDraft {
  const list = (value: string | readonly string[] | undefined, blank: readonly string[]): readonly string[] =>
    value === undefined ? blank : typeof value === 'string' ? [value] : value;
  return {
    measured: {
      finalGaugeLength: list(file.finalGaugeLength, ['']),
      finalWidth: list(file.finalWidth, ['']),
      finalThickness: list(file.finalThickness, ['']),
      // Two at right angles: a neck doesn't always stay round.
      finalDiameter: list(file.finalDiameter, ['', '']),
    },
    distanceToNearestMark: file.distanceToNearestMark ?? '',
    intervals: intervalsOf(file.fractureIntervals),
  };
}

function intervalsOf(given: SpecimenFile['fractureIntervals']): AfterFractureDraft['intervals'] {
  const [beyond = '', beyondToo = ''] = given?.beyondLengths ?? [];
  return {
    intervals: given === undefined ? '' : String(given.intervals),
    between: given === undefined ? '' : String(given.between),
    betweenLength: given?.betweenLength ?? '',
    beyond,
    beyondToo,
  };
}

/** Undefined where nothing is entered; what is half entered is told by the check of the record. */
function intervalsFrom({ intervals: typed }: AfterFractureDraft): SpecimenFile['fractureIntervals'] {
  const text = (entry: IntervalEntry): string => typed[entry].trim();
  if (INTERVAL_ENTRIES.every((entry) => text(entry) === '')) return undefined;
  const count = (entry: IntervalEntry): number => (text(entry) === '' ? Number.NaN : Number(text(entry)));
  return {
    intervals: count('intervals'),
    between: count('between'),
    betweenLength: text('betweenLength'),
    beyondLengths: [text('beyond'), ...(text('beyondToo') === '' ? [] : [text('beyondToo')])],
  };
}

/** Field of the record that an entry is part of. */
export const INTERVAL_FIELDS: Readonly<Record<IntervalEntry, string>> = {
  intervals: 'fractureIntervals.intervals',
  between: 'fractureIntervals.between',
  betweenLength: 'fractureIntervals.betweenLength',
  beyond: 'fractureIntervals.beyondLengths[0]',
  beyondToo: 'fractureIntervals.beyondLengths[1]',
};

/** The specimen with what was measured in it; everything else stays as it was, and a blank field is left out. */
export function withMeasured(file: SpecimenFile, draft: AfterFractureDraft): SpecimenFile {
  const names = finalDimensionsOf(file.geometry.kind);
  const own: readonly string[] = [...names, 'distanceToNearestMark', 'fractureIntervals'];
  const others = Object.fromEntries(
    Object.entries(file).filter(([name]) => !own.includes(name)),
  ) as SpecimenFile;
  const measured = names
    .map(
      (name) =>
        [name, draft.measured[name].map((text) => text.trim()).filter((text) => text !== '')] as const,
    )
    .filter(([, texts]) => texts.length > 0);
  const distance = draft.distanceToNearestMark.trim();
  const fractureIntervals = intervalsFrom(draft);
  return {
    ...others,
    ...Object.fromEntries(measured),
    ...(distance === '' ? {} : { distanceToNearestMark: distance }),
    ...(fractureIntervals === undefined ? {} : { fractureIntervals }),
  };
}

export const saysTheSame = (file: SpecimenFile, draft: AfterFractureDraft): boolean =>
  JSON.stringify(withMeasured(file, draft)) === JSON.stringify(withMeasured(file, draftOf(file)));

export interface AfterFractureFaults {
  /** By field; these keep the record from being made. */
  readonly faults: ReadonlyMap<string, string>;
  /** By field; the record can be made, but the value that it is for will be withheld with this reason. */
  readonly findings: ReadonlyMap<string, string>;
}

export function afterFractureFaults(file: SpecimenFile): AfterFractureFaults {
  const faults = new Map<string, string>();
  const findings = new Map<string, string>();
  const read = readSpecimen(file);
  if (!read.ok) {
    for (const { field, sentence } of read.faults) {
      const name = field.startsWith('fractureIntervals') ? field : field.replace(/\[\d+\]$/, '');
      if (!faults.has(name)) faults.set(name, sentence.replace(/^[\w.[\]]+: /, ''));
    }
    return { faults, findings };
  }
  const { specimen } = read;
  const elongation = elongationAfterFracture(specimen);
  if (elongation !== null && !elongation.given)
    findings.set(
      specimen.fractureIntervals === undefined ? 'finalGaugeLength' : INTERVAL_FIELDS.beyond,
      elongation.withheld.reason,
    );
  const original = area(specimen.geometry);
  if (original.ok) {
    const reduction = reductionOfArea(specimen, original.area.areaMm2);
    if (reduction !== null && !reduction.given) {
      const at = specimen.geometry.kind === 'round' ? 'finalDiameter' : 'finalThickness';
      findings.set(at, reduction.withheld.reason);
    }
  }
  return { faults, findings };
}
