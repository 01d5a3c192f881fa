/** A set as it is being filled in: every entry as typed. What the form doesn't show of a set is carried through a correction. */
import { signal } from '@preact/signals';
import { z } from 'zod';
import type { RulePack } from '../../../core/acceptance/read-rule-pack.ts';
import { TEXT_LENGTH_MAX } from '../../../core/limits.ts';
import { readSet } from '../../../core/sets/set-faults.ts';
import {
  DOCUMENT_KINDS,
  SET_PURPOSES,
  SPECIMEN_TYPES,
  type SetForm,
  setForm,
} from '../../../core/sets/set-form.ts';
import { packsAtHand } from '../../store/own-rules.ts';
import { remember, remembered } from '../../store/remembered.ts';

/** Where each entry belongs in the form of a set, and where its faults are told. */
export const FIELD_PATH = {
  name: 'name',
  purpose: 'purpose',
  rulePackId: 'rulePackId',
  specimenType: 'specimenType',
  base1: 'baseMetals[0].designation',
  base1Minimum: 'baseMetals[0].minimum',
  base1Heat: 'baseMetals[0].heat',
  base1Lot: 'baseMetals[0].lot',
  base2: 'baseMetals[1].designation',
  base2Minimum: 'baseMetals[1].minimum',
  base2Heat: 'baseMetals[1].heat',
  base2Lot: 'baseMetals[1].lot',
  filler: 'filler.classification',
  fillerLot: 'filler.lot',
  fillerMinimum: 'filler.minimum',
  yieldMinimum: 'filler.yieldMinimum',
  elongationMinimum: 'filler.elongationMinimum',
  weldMetalMinimum: 'weldMetalMinimum',
  process: 'process',
  joint: 'joint',
  position: 'position',
  thickness: 'thickness',
  outsideDiameter: 'outsideDiameter',
  wall: 'wall',
  welder: 'welder',
  customer: 'customer',
  wps: 'documents.wps',
  pqr: 'documents.pqr',
  'welder-record': 'documents.welder-record',
  'work-order': 'documents.work-order',
  drawing: 'documents.drawing',
  other: 'documents.other',
  requiredCount: 'requiredCount',
  fewerReason: 'fewerReason',
  system: 'system',
  decisionRule: 'decisionRule',
  guardFactor: 'guardFactor',
  notes: 'notes',
} as const;
export type SetField = keyof typeof FIELD_PATH;
const FIELDS = Object.keys(FIELD_PATH) as SetField[];

const entriesForm = z.partialRecord(
  z.enum(FIELDS as [SetField, ...SetField[]]),
  z.string().max(TEXT_LENGTH_MAX),
);

const draftForm = z.strictObject({
  entries: entriesForm,
  /** What was there before anything was typed; none in drafts from before this was kept. */
  begun: entriesForm.optional(),
  /** The set that is corrected; null for a new one. */
  setId: z.number().int().positive().nullable(),
  /** Parts of the set that have no entry of their own: a third base metal, a second work order. */
  further: setForm.unwrap().pick({ baseMetals: true, documents: true }),
});
export type SetDraft = z.infer<typeof draftForm>;

const KEY = 'gaugemark.set-draft';

/** Null while no set is being filled in. */
export const setDraft = signal<SetDraft | null>(remembered(KEY, draftForm.nullable(), null));

export function keepSetDraft(): void {
  remember(KEY, () => setDraft.value);
}

/** Which entry of the form a person came for. */
export const wantedEntry = signal<SetField>('name');

/** The packs from which is chosen, codes first, a laboratory's own last. */
export const packs = (): readonly RulePack[] => packsAtHand.value;
export const packOf = (draft: SetDraft): RulePack | undefined =>
  packs().find((pack) => pack.file.id === draft.entries.rulePackId);

export function beginSet(): void {
  const entries = {
    purpose: SET_PURPOSES[0],
    rulePackId: packs()[0]?.file.id ?? '',
    specimenType: SPECIMEN_TYPES[0],
  };
  setDraft.value = {
    entries,
    begun: entries,
    setId: null,
    further: { baseMetals: [], documents: [] },
  };
}

/** Whether the form says anything else than it began with; what it was offered then may be known better by now. */
export function isTypedSet(draft: SetDraft): boolean {
  const { begun } = draft;
  return (
    begun === undefined ||
    JSON.stringify(formOfDraft(draft)) !== JSON.stringify(formOfDraft({ ...draft, entries: begun }))
  );
}

export function changeEntry(field: SetField, value: string): void {
  const draft = setDraft.value;
  if (draft === null) return;
  const entries = { ...draft.entries, [field]: value };
  const next = { ...draft, entries };
  // A pack for all-weld-metal specimens judges no others, and no other pack judges those.
  const allWeldMetal = packOf(next)?.file.test === 'all-weld-metal';
  if (allWeldMetal !== (entries.specimenType === 'all-weld-metal-round'))
    entries.specimenType = allWeldMetal ? 'all-weld-metal-round' : SPECIMEN_TYPES[0];
  setDraft.value = next;
}

/** A kept set taken up to be corrected. */
export function draftOfSet(setId: number, form: SetForm): SetDraft {
  const [first, second, ...otherMetals] = form.baseMetals;
  const firstOfKind = DOCUMENT_KINDS.map((kind) => form.documents.find((one) => one.kind === kind));
  const entries: Partial<Record<SetField, string>> = {};
  const put = (field: SetField, value: string | undefined) => {
    if (value !== undefined) entries[field] = value;
  };
  for (const key of [
    'name',
    'purpose',
    'rulePackId',
    'specimenType',
    'weldMetalMinimum',
    'process',
    'joint',
    'position',
    'thickness',
    'outsideDiameter',
    'wall',
    'welder',
    'customer',
    'system',
    'decisionRule',
    'guardFactor',
    'fewerReason',
    'notes',
  ] as const)
    put(key, form[key]);
  put('base1', first?.designation);
  put('base1Minimum', first?.minimum);
  put('base1Heat', first?.heat);
  put('base1Lot', first?.lot);
  put('base2', second?.designation);
  put('base2Minimum', second?.minimum);
  put('base2Heat', second?.heat);
  put('base2Lot', second?.lot);
  put('filler', form.filler?.classification);
  put('fillerLot', form.filler?.lot);
  put('fillerMinimum', form.filler?.minimum);
  put('yieldMinimum', form.filler?.yieldMinimum);
  put('elongationMinimum', form.filler?.elongationMinimum);
  put('requiredCount', form.requiredCount === undefined ? undefined : String(form.requiredCount));
  for (const document of firstOfKind) if (document !== undefined) put(document.kind, document.number);
  return {
    entries,
    begun: entries,
    setId,
    further: {
      baseMetals: otherMetals,
      documents: form.documents.filter((document) => !firstOfKind.includes(document)),
    },
  };
}

/** In the form of core/sets/set-form.ts; blank entries are left out. */
export function formOfDraft({ entries, further }: SetDraft, fillerHeat?: string): Record<string, unknown> {
  const at = (field: SetField): string | undefined => {
    const value = entries[field]?.trim();
    return value === undefined || value === '' ? undefined : value;
  };
  const some = (pairs: Record<string, unknown>): Record<string, unknown> =>
    Object.fromEntries(Object.entries(pairs).filter(([, value]) => value !== undefined));
  const metal = (field: 'base1' | 'base2') => {
    const of = {
      designation: at(field),
      minimum: at(`${field}Minimum`),
      heat: at(`${field}Heat`),
      lot: at(`${field}Lot`),
    };
    return Object.values(of).every((value) => value === undefined)
      ? []
      : [some({ ...of, designation: of.designation ?? '' })];
  };
  const filler = some({
    classification: at('filler'),
    lot: at('fillerLot'),
    heat: fillerHeat,
    minimum: at('fillerMinimum'),
    yieldMinimum: at('yieldMinimum'),
    elongationMinimum: at('elongationMinimum'),
  });
  const count = at('requiredCount');
  return {
    name: at('name') ?? '',
    purpose: at('purpose') ?? '',
    rulePackId: at('rulePackId') ?? '',
    specimenType: at('specimenType') ?? '',
    baseMetals: [...metal('base1'), ...metal('base2'), ...further.baseMetals],
    documents: [
      ...DOCUMENT_KINDS.flatMap((kind) => {
        const number = at(kind);
        return number === undefined ? [] : [{ kind, number }];
      }),
      ...further.documents,
    ],
    ...some({
      filler: Object.keys(filler).length === 0 ? undefined : { classification: '', ...filler },
      weldMetalMinimum: at('weldMetalMinimum'),
      process: at('process'),
      joint: at('joint'),
      position: at('position'),
      thickness: at('thickness'),
      outsideDiameter: at('outsideDiameter'),
      wall: at('wall'),
      welder: at('welder'),
      customer: at('customer'),
      // What is no whole number is handed on as typed, so that the check says so.
      requiredCount: count !== undefined && /^\d{1,6}$/.test(count) ? Number(count) : count,
      // A reason without a number of its own says nothing.
      fewerReason: count === undefined ? undefined : at('fewerReason'),
      system: at('system'),
      decisionRule: at('decisionRule'),
      guardFactor: at('guardFactor'),
      notes: at('notes'),
    }),
  };
}

/** What is wrong with the draft, by entry; faults of nothing shown stand under ''. */
export function faultsOfDraft(draft: SetDraft): ReadonlyMap<SetField | '', string> {
  const read = readSet(formOfDraft(draft), packs());
  const faults = new Map<SetField | '', string>();
  if (read.ok) return faults;
  for (const { field, sentence } of read.faults) {
    const entry = FIELDS.find((one) => FIELD_PATH[one] === field) ?? '';
    const said = field === '' ? sentence : sentence.replace(`${field}: `, '');
    if (!faults.has(entry)) faults.set(entry, entry === '' ? sentence : said);
  }
  return faults;
}
