/** From the form of a set to a set that can be judged, or to every fault with its field. */
import { parseQuantity, quantityFaultSentence } from '../quantity/parse-quantity.ts';
import { packsWith } from '../acceptance/packs.ts';
import { type RulePack, readRulePack, selfContainedPackFile } from '../acceptance/read-rule-pack.ts';
import type { ChosenRules, RulePackFile } from '../acceptance/rule-pack.ts';
import { readJudgeRequest } from '../acceptance/judge-request.ts';
import { type ShapeFault, shapeFault, shapeFaults } from '../shape-faults.ts';
import { type FrozenSet, type SetForm, SPECIMEN_TYPE_WORDS, setForm } from './set-form.ts';
import { materialsRequest } from './member-request.ts';
import type { SetMemberForm } from './set-member.ts';

export type SetOutcome =
  | { readonly ok: true; readonly set: FrozenSet }
  | { readonly ok: false; readonly faults: readonly ShapeFault[] };

/** Checks a form and freezes the rule pack that it names into the set. Never throws on bad input. */
export function readSet(input: unknown, packs: readonly RulePack[]): SetOutcome {
  const checked = setForm.safeParse(input);
  if (!checked.success)
    return {
      ok: false,
      faults: shapeFaults(checked.error.issues, input, { whole: 'The set', schema: setForm }),
    };
  const form = checked.data;
  const pack = packs.find((candidate) => candidate.file.id === form.rulePackId);
  if (pack === undefined) {
    return {
      ok: false,
      faults: [
        shapeFault(
          'rulePackId',
          `there is no rule pack "${form.rulePackId}"; the packs are ${packs.map(({ file }) => file.id).join(', ')}`,
        ),
      ],
    };
  }
  const faults = [...typeFaults(form, pack), ...lengthFaults(form), ...materialFaults(form, pack)];
  if (faults.length > 0) return { ok: false, faults };
  const others = packs.filter(
    (one) => one.origin !== undefined && pack.file.otherPacks.includes(one.file.id),
  );
  return {
    ok: true,
    set: {
      form,
      pack: frozen(pack, form),
      ...(pack.origin === undefined ? {} : { origin: pack.origin }),
      ...(others.length === 0 ? {} : { otherPacks: others.map((other) => frozen(other, form)) }),
    },
  };
}

const frozen = (pack: RulePack, form: SetForm): RulePackFile =>
  selfContainedPackFile(onlyNamedMaterials(pack, form));

/** Another pack for one pull of a set, kept as whole as the set's own. */
export const rulesBeside = (pack: RulePack, { form }: FrozenSet): ChosenRules => ({
  pack: frozen(pack, form),
  ...(pack.origin === undefined ? {} : { origin: pack.origin }),
});

/** The pack that was frozen into a set. Throws where the record itself is wrong: that is a bug or a damaged archive. */
export function packOfSet(set: FrozenSet): RulePack {
  return keptPack(set.pack);
}

/** Packs that may be asked for a different answer: the program's, and a laboratory's own as they were kept. */
export function otherPacksOfSet(set: FrozenSet): readonly RulePack[] {
  return packsWith((set.otherPacks ?? []).map(keptPack));
}

function keptPack(file: RulePackFile): RulePack {
  const read = readRulePack(file);
  if (!read.ok)
    throw new Error(`the rule pack kept with the set is wrong: ${read.faults[0]?.sentence ?? ''}`);
  return read.pack;
}

/**
 * Where the pack reads differently today, or is not there any more: the set is judged by the one kept with it, and
 * that must be known. Null where nothing has changed.
 */
export function packChangedSince(set: FrozenSet, packsNow: readonly RulePack[]): string | null {
  const called = `${set.pack.name}${set.origin === undefined ? '' : ` (${set.origin.file})`}`;
  const judgedBy = 'the set is judged by the rules as they were kept with it';
  const now = packsNow.find((pack) => pack.file.id === set.pack.id);
  if (now === undefined) return `The rules ${called} are not in the rules folder any more; ${judgedBy}.`;
  const again = readSet(set.form, packsNow);
  if (again.ok && JSON.stringify(again.set.pack) === JSON.stringify(set.pack)) return null;
  return `The rules ${called} read differently today${now.origin === undefined ? '' : ` in ${now.origin.file}`}; ${judgedBy}. Correct the set to judge it by those of today.`;
}

/** Faults among the members: strangers as retests, rings, one specimen twice. */
export function memberFaults(members: readonly SetMemberForm[]): ShapeFault[] {
  const ids = members.map((member) => member.specimenId);
  return members.flatMap((member, index) => {
    const field = `members[${String(index)}]`;
    const faults: ShapeFault[] = [];
    if (ids.indexOf(member.specimenId) !== index) {
      faults.push(shapeFault(`${field}.specimenId`, `${member.specimenId} is in the set already`));
    }
    const original = member.retest?.of;
    if (original === undefined) return faults;
    if (original === member.specimenId) {
      faults.push(shapeFault(`${field}.retest.of`, `${member.specimenId} can't be a retest of itself`));
    } else if (!ids.includes(original)) {
      faults.push(
        shapeFault(`${field}.retest.of`, `${original} is not in the set; add it first, or correct the name`),
      );
    } else if (members.find((other) => other.specimenId === original)?.retest !== undefined) {
      faults.push(
        shapeFault(
          `${field}.retest.of`,
          `${original} is a retest itself; name the specimen that failed first`,
        ),
      );
    }
    return faults;
  });
}

function typeFaults(form: SetForm, pack: RulePack): ShapeFault[] {
  const allWeldMetal = form.specimenType === 'all-weld-metal-round';
  if ((pack.file.test === 'all-weld-metal') === allWeldMetal) return [];
  return [
    shapeFault(
      'specimenType',
      `${pack.file.name} is for ${pack.file.test === 'all-weld-metal' ? 'all-weld-metal' : 'transverse'} specimens, not for "${SPECIMEN_TYPE_WORDS[form.specimenType]}"; choose the other pack or the other type`,
    ),
  ];
}

function lengthFaults(form: SetForm): ShapeFault[] {
  return (['thickness', 'outsideDiameter', 'wall'] as const).flatMap((field) => {
    const text = form[field];
    if (text === undefined) return [];
    const read = parseQuantity(text, { dimension: 'length', positive: true });
    return read.ok ? [] : [{ field, sentence: `${field}: ${quantityFaultSentence(read.fault, text)}` }];
  });
}

/** Ambiguous designations, minima with two units and the like, under the names that the form has for them. */
function materialFaults(form: SetForm, pack: RulePack): ShapeFault[] {
  const read = readJudgeRequest(pack, materialsRequest(form));
  if (read.ok) return [];
  return read.faults.map(({ field, sentence }) => {
    const own = field
      .replace(/^minima(?:\[0\])?$/, 'filler.minimum')
      .replace(/^(baseMetals\[\d+\])$/, '$1.designation')
      .replace(/^filler$/, 'filler.classification')
      .replace(/^(yield|elongation)Minimum$/, 'filler.$1Minimum');
    return { field: own, sentence: `${own}${sentence.slice(field.length)}` };
  });
}

/** The tables of a pack hold many materials; a set keeps those that it could mean. */
function onlyNamedMaterials(pack: RulePack, form: SetForm): RulePack {
  const read = readJudgeRequest(pack, materialsRequest(form));
  if (!read.ok) return pack;
  const used = new Set(
    [...read.judged.baseMetals, ...(read.judged.filler === null ? [] : [read.judged.filler])].map(
      (material) => material.entry?.id,
    ),
  );
  return {
    ...pack,
    baseMetals: pack.baseMetals.filter((material) => used.has(material.id)),
    fillers: pack.fillers.filter((material) => used.has(material.id)),
  };
}
