/** The specimen as it is being entered. Survives a reload of the window; becomes a record only when it is kept. */
import { computed, signal } from '@preact/signals';
import { z } from 'zod';
import type { KeptSpecimen } from '../../core/contract/specimen-requests.ts';
import { MEASUREMENTS_PER_DIMENSION_MAX, NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../../core/limits.ts';
import {
  exactFromTypedNumber,
  parseQuantity,
  quantityFaultSentence,
} from '../../core/quantity/parse-quantity.ts';
import type { Dimension } from '../../core/quantity/units.ts';
import { type AreaOutcome, area } from '../../core/results/area.ts';
import { type SpecimenOutcome, readSpecimen } from '../../core/specimen/read-specimen.ts';
import { type GeometryKind, type SpecimenFile, specimenFile } from '../../core/specimen/specimen-file.ts';
import { remember, remembered } from './remembered.ts';
import { type UnitSystem, displayUnit } from '../numbers/display-unit.ts';
import { units } from './view-settings.ts';

/** Everything that is measured on one geometry or another. */
export const DIMENSION_OF = {
  width: 'length',
  thickness: 'length',
  diameter: 'length',
  outerDiameter: 'length',
  wall: 'length',
  mass: 'mass',
  length: 'length',
  density: 'density',
} as const satisfies Record<string, Dimension>;
export type DimensionName = keyof typeof DIMENSION_OF;

export const DIMENSIONS_OF_KIND: Readonly<Record<GeometryKind, readonly DimensionName[]>> = {
  flat: ['width', 'thickness'],
  round: ['diameter'],
  tube: ['outerDiameter', 'wall'],
  'pipe-strip': ['width', 'wall', 'outerDiameter'],
  weighed: ['mass', 'length', 'density'],
  unmeasured: [],
};
const KINDS = Object.keys(DIMENSIONS_OF_KIND) as GeometryKind[];
/** Those that are chosen between: a record that came without sizes gets one of them when they are given. */
export const MEASURED_KINDS = KINDS.filter((kind) => kind !== 'unmeasured');

const entries = z.array(z.string().max(TEXT_LENGTH_MAX)).max(MEASUREMENTS_PER_DIMENSION_MAX);
/** What a specimen can carry beyond this form; a correction made here must not lose it. */
const furtherFacts = z.object(specimenFile.unwrap().shape).partial().omit({
  id: true,
  geometry: true,
  gaugeLength: true,
  extensometerGaugeLength: true,
  parallelLength: true,
  notes: true,
});
export const draftForm = z.object({
  id: z.string().max(NAME_LENGTH_MAX),
  kind: z.enum(KINDS as [GeometryKind, ...GeometryKind[]]),
  measured: z.partialRecord(
    z.enum(Object.keys(DIMENSION_OF) as [DimensionName, ...DimensionName[]]),
    entries,
  ),
  gaugeLength: entries,
  extensometerGaugeLength: z.string(),
  parallelLength: z.string(),
  notes: z.string().max(TEXT_LENGTH_MAX),
  further: furtherFacts.default({}),
  /** Row in the archive, once kept. */
  specimenId: z.number().int().positive().nullable(),
  /** The draft as it was when it was kept, to tell whether something has changed since. */
  keptAs: z.string().nullable(),
});
export type SpecimenDraft = z.infer<typeof draftForm>;

const EMPTY: SpecimenDraft = {
  id: '',
  kind: 'flat',
  measured: {},
  gaugeLength: [''],
  extensometerGaugeLength: '',
  parallelLength: '',
  notes: '',
  further: {},
  specimenId: null,
  keptAs: null,
};

const KEY = 'gaugemark.specimen-draft';

export const draft = signal<SpecimenDraft>(remembered(KEY, draftForm, EMPTY));

export function keepDraft(): void {
  remember(KEY, () => draft.value);
}

export const changeDraft = (change: Partial<SpecimenDraft>): void => {
  draft.value = { ...draft.value, ...change };
};

/** What was typed and not kept when another specimen was begun or taken up; the last one only. Null where nothing was. */
export const leftDraft = signal<SpecimenDraft | null>(null);

function leave(): void {
  if (!draftIsBlank.value && !draftIsKept.value) leftDraft.value = draft.value;
}

/** Gives it back; what stands there now is left in its place, where it is not kept. */
export function takeBackDraft(): void {
  const before = leftDraft.value;
  if (before === null) return;
  leftDraft.value = null;
  leave();
  draft.value = before;
}

export const newDraft = (): void => {
  leave();
  const { kind } = draft.value;
  // What is pulled here is measured first.
  draft.value = { ...EMPTY, kind: kind === 'unmeasured' ? EMPTY.kind : kind };
};

/** Entries of a dimension; always at least one, so that there is a field to type into. */
export function entriesOf(name: DimensionName | 'gaugeLength'): readonly string[] {
  const list = name === 'gaugeLength' ? draft.value.gaugeLength : (draft.value.measured[name] ?? []);
  return list.length === 0 ? [''] : list;
}

export function changeEntries(name: DimensionName | 'gaugeLength', list: readonly string[]): void {
  if (name === 'gaugeLength') changeDraft({ gaugeLength: [...list] });
  else changeDraft({ measured: { ...draft.value.measured, [name]: [...list] } });
}

/** A number typed without a unit gets the unit that the form shows, so that the record always says it. */
export function withUnit(text: string, dimension: Dimension, system: UnitSystem): string {
  const trimmed = text.trim();
  return trimmed !== '' && exactFromTypedNumber(trimmed) !== null
    ? `${trimmed} ${displayUnit(dimension, system)}`
    : trimmed;
}

/** What is wrong with one entry, or null. Blank ones are no fault here: whether one is needed is told elsewhere. */
export function entryFault(text: string, dimension: Dimension): string | null {
  if (text.trim() === '') return null;
  const outcome = parseQuantity(text, { dimension, positive: true });
  return outcome.ok ? null : quantityFaultSentence(outcome.fault, text.trim());
}

const filled = (list: readonly string[]): string[] => list.map((t) => t.trim()).filter((t) => t !== '');

/** The draft in the form of a specimen file; blank entries are left out. */
export function draftAsFile(d: SpecimenDraft): unknown {
  const geometry = Object.fromEntries(
    DIMENSIONS_OF_KIND[d.kind].map((name) => [name, filled(d.measured[name] ?? [])]),
  );
  const gauge = filled(d.gaugeLength);
  const single = (key: 'extensometerGaugeLength' | 'parallelLength' | 'notes') =>
    d[key].trim() === '' ? {} : { [key]: d[key].trim() };
  return {
    id: d.id.trim(),
    geometry: { kind: d.kind, ...geometry },
    ...(gauge.length === 0 ? {} : { gaugeLength: gauge }),
    ...single('extensometerGaugeLength'),
    ...single('parallelLength'),
    ...single('notes'),
    ...d.further,
  };
}

/** A specimen file as a draft that is not kept yet. */
export function draftFromFile(file: SpecimenFile): SpecimenDraft {
  const list = (value: string | readonly string[] | undefined): string[] =>
    value === undefined ? [''] : typeof value === 'string' ? [value] : [...value];
  const { kind, ...dimensions } = file.geometry;
  const measured = Object.fromEntries(
    Object.entries(dimensions).map(([name, value]: [string, string | string[]]) => [name, list(value)]),
  );
  return {
    id: file.id,
    kind,
    measured,
    gaugeLength: list(file.gaugeLength),
    extensometerGaugeLength: file.extensometerGaugeLength ?? '',
    parallelLength: file.parallelLength ?? '',
    notes: file.notes ?? '',
    further: {},
    specimenId: null,
    keptAs: null,
  };
}

/** Takes a kept specimen up again. */
export function takeUp(kept: KeptSpecimen): void {
  leave();
  const further = furtherFacts.parse(kept.specimen);
  const next = { ...draftFromFile(kept.specimen), further, specimenId: kept.specimenId };
  draft.value = { ...next, keptAs: fingerprint(next) };
}

/** What was begun to be corrected stays as it was kept; what was typed can be taken back. */
export function leaveCorrection(): void {
  const { keptAs, specimenId } = draft.value;
  if (keptAs === null || specimenId === null) return;
  leave();
  const specimen = specimenFile.parse(JSON.parse(keptAs));
  draft.value = { ...draftFromFile(specimen), further: furtherFacts.parse(specimen), specimenId, keptAs };
}

const fingerprint = (d: SpecimenDraft): string => JSON.stringify(draftAsFile(d));

export function markKept(specimenId: number): void {
  changeDraft({ specimenId, keptAs: fingerprint(draft.value) });
}

/** The specimen of this draft was corrected elsewhere: what is typed here stays, and corrects the newest record. */
export function followCorrection(superseded: number, kept: KeptSpecimen): void {
  if (draft.value.specimenId !== superseded) return;
  // Kept as it stands: there is nothing to leave.
  if (draftIsKept.value) takeUp(kept);
  else changeDraft({ specimenId: kept.specimenId, further: furtherFacts.parse(kept.specimen) });
}

/** True while nothing has been entered. */
export const draftIsBlank = computed(
  () =>
    draft.value.id.trim() === '' &&
    DIMENSIONS_OF_KIND[draft.value.kind].every((name) => entriesOf(name).every((e) => e.trim() === '')),
);

/** True when the draft says the same as what was kept. */
export const draftIsKept = computed(
  () => draft.value.specimenId !== null && fingerprint(draft.value) === draft.value.keptAs,
);

/** The draft read as a specimen. A missing identity is told apart and doesn't keep the area from being shown. */
export const readDraft = computed<SpecimenOutcome>(() => {
  const file = draftAsFile(draft.value) as SpecimenFile;
  return readSpecimen({ ...file, id: file.id === '' ? '–' : file.id });
});

/** S0 with its working as soon as the section is measured; null before. */
export const draftArea = computed<AreaOutcome | null>(() => {
  const file = draftAsFile(draft.value) as SpecimenFile;
  const outcome = readSpecimen({ id: '–', geometry: file.geometry });
  if (!outcome.ok) return null;
  return area(outcome.specimen.geometry, { mixedUnit: units.value === 'US' ? 'in²' : 'mm²' });
});
