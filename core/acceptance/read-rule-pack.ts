/** From a file's text to a rule pack that can judge, or to every fault in it. */
import { parseQuantity, quantityFaultSentence } from '../quantity/parse-quantity.ts';
import { JSON_FILE_BYTES_MAX } from '../limits.ts';
import type { MaterialFile, MaterialTable } from './material.ts';
import { FAULTS_SHOWN_MAX, type ShapeFault, shapeFault, shapeFaults } from '../shape-faults.ts';
import { type PackOrigin, type RulePackFile, rulePackFile } from './rule-pack.ts';
import { materialTables } from './tables.ts';

/** A pack with its materials at hand: those of its tables, and its own in their place where the ids are the same. */
export interface RulePack {
  readonly file: RulePackFile;
  readonly baseMetals: readonly MaterialFile[];
  readonly fillers: readonly MaterialFile[];
  /** Absent for a pack of the program. */
  readonly origin?: PackOrigin;
}

export type RulePackOutcome =
  | { readonly ok: true; readonly pack: RulePack }
  | { readonly ok: false; readonly faults: readonly ShapeFault[] };

/** Reads the text of a pack file. Never throws on bad input. */
export function readRulePackText(text: string): RulePackOutcome {
  if (text.length > JSON_FILE_BYTES_MAX) {
    return one('', `it is larger than ${String(JSON_FILE_BYTES_MAX)} bytes; a rule pack has a few kilobytes`);
  }
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const where = error instanceof SyntaxError ? error.message : 'unreadable';
    return one('', `it is not JSON (${where}); mend the text there`);
  }
  return readRulePack(value);
}

/** Checks any value that came from outside and reads it as a rule pack. Never throws on bad input. */
export function readRulePack(value: unknown): RulePackOutcome {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return one('', 'it must hold one object with the fields of a rule pack');
  }
  const checked = rulePackFile.safeParse(value);
  if (!checked.success)
    return {
      ok: false,
      faults: shapeFaults(checked.error.issues, value, { whole: 'The file', schema: rulePackFile }),
    };
  const faults = faultsAcrossFields(checked.data);
  return faults.length > 0
    ? { ok: false, faults: faults.slice(0, FAULTS_SHOWN_MAX) }
    : { ok: true, pack: withMaterials(checked.data, materialTables()) };
}

function one(field: string, what: string): RulePackOutcome {
  return { ok: false, faults: [shapeFault(field, what)] };
}

function withMaterials(file: RulePackFile, tables: ReadonlyMap<string, MaterialTable>): RulePack {
  const join = (tableIds: readonly string[], own: readonly MaterialFile[]): MaterialFile[] => {
    const ownIds = new Set(own.map((material) => material.id));
    const fromTables = tableIds.flatMap((id) => tables.get(id)?.materials ?? []);
    return [...own, ...fromTables.filter((material) => !ownIds.has(material.id))];
  };
  return {
    file,
    baseMetals: join(file.baseMetalTables, file.baseMetals),
    fillers: join(file.fillerTables, file.fillers),
  };
}

/** What the fields say about each other: clauses that exist, ids used once, tables that are known. */
function faultsAcrossFields(file: RulePackFile): ShapeFault[] {
  return [
    ...clauseFaults(file),
    ...repeated(
      file.clauses.map((clause) => clause.id),
      (index) => `clauses[${String(index)}].id`,
    ),
    ...repeated(
      file.rules.map((rule) => rule.id),
      (index) => `rules[${String(index)}].id`,
    ),
    ...repeated(
      file.baseMetals.map((m) => m.id),
      (index) => `baseMetals[${String(index)}].id`,
    ),
    ...repeated(
      file.fillers.map((m) => m.id),
      (index) => `fillers[${String(index)}].id`,
    ),
    ...tableFaults(file),
    ...ruleFaults(file),
    ...lengthFaults(file),
  ];
}

function clauseFaults(file: RulePackFile): ShapeFault[] {
  const known = new Set(file.clauses.map((clause) => clause.id));
  const used: readonly (readonly [string, string | undefined])[] = [
    ...file.rules.map((rule, index) => [`rules[${String(index)}].clause`, rule.clause] as const),
    ['rounding.clause', file.rounding?.clause],
    ['severalBaseMetals.clause', file.severalBaseMetals?.clause],
    ...file.specimens.required.map(
      (count, index) => [`specimens.required[${String(index)}].clause`, count.clause] as const,
    ),
    ['specimens.retest.clause', file.specimens.retest?.clause],
    ...file.specimens.proportions.map(
      (asked, index) => [`specimens.proportions[${String(index)}].clause`, asked.clause] as const,
    ),
  ];
  return used.flatMap(([field, clause]) =>
    clause === undefined || known.has(clause)
      ? []
      : [
          shapeFault(
            field,
            `clause "${clause}" is unknown: it is not among "clauses" (${[...known].join(', ')}); add it there with its source, or correct it`,
          ),
        ],
  );
}

function repeated(ids: readonly string[], fieldOf: (index: number) => string): ShapeFault[] {
  return ids.flatMap((id, index) =>
    ids.indexOf(id) === index
      ? []
      : [shapeFault(fieldOf(index), `"${id}" is used twice; give each its own id`)],
  );
}

function tableFaults(file: RulePackFile): ShapeFault[] {
  const tables = materialTables();
  const check = (field: string, ids: readonly string[]): ShapeFault[] =>
    ids.flatMap((id, index) =>
      tables.has(id)
        ? []
        : [
            shapeFault(
              `${field}[${String(index)}]`,
              `there is no table "${id}"; the tables are ${[...tables.keys()].join(', ')}`,
            ),
          ],
    );
  return [...check('baseMetalTables', file.baseMetalTables), ...check('fillerTables', file.fillerTables)];
}

function ruleFaults(file: RulePackFile): ShapeFault[] {
  const faults = file.rules.flatMap((rule, index) => {
    const field = `rules[${String(index)}]`;
    if (rule.require.length > 0 || Object.keys(rule.when).length > 0) return [];
    return [
      shapeFault(
        field,
        `it has neither "when" nor "require" and would ${rule.outcome} every specimen; say what it asks for`,
      ),
    ];
  });
  if (!file.rules.some((rule) => rule.outcome === 'accept')) {
    faults.push(
      shapeFault('rules', 'no rule accepts anything; add the rule by which a specimen is accepted'),
    );
  }
  const usesBaseMetal = file.rules.some((rule) =>
    rule.require.some((r) => r.limitOf === 'base-metal-minimum'),
  );
  if (usesBaseMetal && file.severalBaseMetals === undefined) {
    faults.push(
      shapeFault(
        'severalBaseMetals',
        'a rule takes its limit from the base metal, so say which minimum governs where two different ones are joined, for example {"governs": "lowest", "clause": …}',
      ),
    );
  }
  return faults;
}

function lengthFaults(file: RulePackFile): ShapeFault[] {
  return file.specimens.required.flatMap((count, index) =>
    Object.entries(count.when).flatMap(([key, text]) => {
      if (text === undefined) return [];
      const read = parseQuantity(text, { dimension: 'length', positive: true });
      return read.ok
        ? []
        : [
            shapeFault(
              `specimens.required[${String(index)}].when.${key}`,
              quantityFaultSentence(read.fault, text),
            ),
          ];
    }),
  );
}

/** The pack as one file that needs no table: what `rules show --json` prints and a laboratory starts its own from. */
export function selfContainedPackFile(pack: RulePack): RulePackFile {
  return {
    ...pack.file,
    baseMetalTables: [],
    fillerTables: [],
    baseMetals: [...pack.baseMetals],
    fillers: [...pack.fillers],
  };
}
