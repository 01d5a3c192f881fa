/** A rule pack for a terminal: rules in words, where each comes from, materials with the ids to ask for them by. */
import { TIE_WORDS } from '../../core/acceptance/exact-rounding.ts';
import type { MaterialFile } from '../../core/acceptance/material.ts';
import type { RulePack } from '../../core/acceptance/read-rule-pack.ts';
import { CODE_GOVERNS, originText } from '../../core/acceptance/source-status.ts';

export function rulePackText(pack: RulePack): string {
  const { file } = pack;
  return [
    `${file.id}  ${file.name}`,
    `edition ${file.edition}; ${file.kind}; ${file.test} specimens`,
    file.summary,
    '',
    'Clauses',
    ...file.clauses.map((clause) => `  ${clause.id}: ${clause.says}\n    ${originText(clause) ?? ''}`),
    '',
    'Rules (the first that applies is named)',
    ...file.rules.map((rule) => `  ${rule.id} (${rule.outcome}, ${rule.clause}): ${rule.says}`),
    ...proportionLines(pack),
    ...roundingLines(pack),
    ...materialLines('Base metals (--base-metal ID)', pack.baseMetals),
    ...materialLines('Filler classes (--filler ID)', pack.fillers),
    ...(file.notes.length === 0 ? [] : ['', 'Notes', ...file.notes.map((note) => `  ${note}`)]),
    '',
    CODE_GOVERNS,
  ].join('\n');
}

function proportionLines({ file }: RulePack): string[] {
  const { proportions } = file.specimens;
  if (proportions.length === 0) return [];
  return [
    '',
    'Proportions (a specimen of a set that has others is questionable)',
    ...proportions.map((asked) => `  ${asked.shape} (${asked.clause}): ${asked.says}`),
  ];
}

function roundingLines({ file }: RulePack): string[] {
  if (file.rounding === undefined) return ['', 'Rounding: none; the unrounded value is compared.'];
  const { strength, elongation, tie, clause } = file.rounding;
  const steps = [strength?.us, strength?.si].filter((step) => step !== undefined).join(' or ');
  return [
    '',
    `Rounding before judging (${clause}): strength to ${steps || 'no step'}, elongation to ${elongation ?? 'no step'}, ${TIE_WORDS[tie]}.`,
  ];
}

function materialLines(title: string, materials: readonly MaterialFile[]): string[] {
  if (materials.length === 0) return [];
  const width = Math.max(...materials.map((material) => material.id.length));
  return [
    '',
    title,
    ...materials.map((material) => `  ${material.id.padEnd(width)}  ${minimaText(material)}`),
  ];
}

function minimaText(material: MaterialFile): string {
  const range = (
    given: { readonly min?: string | undefined; readonly max?: string | undefined } | undefined,
  ) => (given === undefined ? null : [given.min, given.max].filter((end) => end !== undefined).join(' to '));
  const property = (
    name: string,
    ranges: readonly (string | null)[],
    origin: { readonly status?: MaterialFile['status'] | undefined } | undefined,
  ): string | null => {
    const known = ranges.filter((text) => text !== null);
    if (known.length === 0) return null;
    const memory = (origin?.status ?? material.status) === 'memory' ? ', memory' : '';
    return `${name} ${known.join(' / ')}${memory}`;
  };
  return [
    property('tensile', [range(material.tensile?.us), range(material.tensile?.si)], material.tensile),
    property('yield', [range(material.yield?.us), range(material.yield?.si)], material.yield),
    property('elongation', [range(material.elongation?.percent)], material.elongation),
  ]
    .filter((text) => text !== null)
    .join('; ');
}
