/** A minimum that somebody stated for a material of the tables: the same figure, or a contradiction to be told. */
import type { CaseMaterial, JudgeCase } from './judge-case.ts';
import { type QuantityName, QUANTITY_NAMES, QUANTITY_WORDS, materialLimit } from './material.ts';
import { type PrintedValue } from './printed-value.ts';
import { convertExact } from '../quantity/units.ts';

/** Says which stated minimum differs from the printed one, or null where none does. */
export function statedDiffersFromPrinted(judged: JudgeCase): string | null {
  for (const material of materialsOf(judged)) {
    for (const quantity of QUANTITY_NAMES) {
      const stated = material.stated[quantity];
      const printed = printedMinima(material, quantity);
      if (stated === undefined || printed.length === 0 || printed.some((p) => same(p, stated))) continue;
      return `the minimum ${QUANTITY_WORDS[quantity]} stated for ${material.called} is ${stated.text}, but the table prints ${printed.map((p) => p.text).join(' / ')}`;
    }
  }
  return null;
}

export function withPrintedMinima(judged: JudgeCase): JudgeCase {
  return mapMaterials(judged, (material) =>
    material.entry === null ? material : { ...material, stated: {} },
  );
}

export function withStatedMinima(judged: JudgeCase): JudgeCase {
  return mapMaterials(judged, (material) => {
    const contradicts = QUANTITY_NAMES.some((quantity) => {
      const stated = material.stated[quantity];
      const printed = printedMinima(material, quantity);
      return stated !== undefined && printed.length > 0 && !printed.some((p) => same(p, stated));
    });
    return contradicts ? { ...material, entry: null } : material;
  });
}

function materialsOf(judged: JudgeCase): CaseMaterial[] {
  return judged.filler === null ? [...judged.baseMetals] : [...judged.baseMetals, judged.filler];
}

function mapMaterials(judged: JudgeCase, change: (material: CaseMaterial) => CaseMaterial): JudgeCase {
  return {
    ...judged,
    baseMetals: judged.baseMetals.map(change),
    filler: judged.filler === null ? null : change(judged.filler),
  };
}

function printedMinima(material: CaseMaterial, quantity: QuantityName): PrintedValue[] {
  const { entry } = material;
  if (entry === null) return [];
  return (['US', 'SI'] as const).flatMap((system) => {
    const limit = materialLimit(entry, quantity, 'min', system);
    return limit === null || limit.otherSystem ? [] : [limit];
  });
}

function same(a: PrintedValue, b: PrintedValue): boolean {
  return convertExact(a.exact, a.unit, b.unit).compare(b.exact) === 0;
}
