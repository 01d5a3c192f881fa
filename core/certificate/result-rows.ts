/** Results in the order of a certificate, in both unit systems, with the rounded value and the uncertainty. */
import { grouped } from '../acceptance/number-text.ts';
import { type DisplaySystem, displayUnit, inDisplayUnit } from '../quantity/display-unit.ts';
import { numberText } from '../quantity/number-text.ts';
import { type UnitSymbol, convert } from '../quantity/units.ts';
import { inFieldWords } from '../specimen/field-words.ts';
import type { Result, Withheld } from '../results/result.ts';
import type { PaperWords } from '../words/paper-words.ts';
import type { ResultRow } from './certificate-content.ts';

/**
 * What a certificate states, in its order; everything else stays in the archive and in the working. Offsets, extensions
 * under load and other gauge lengths are stated as they were asked for.
 */
const STATED: readonly RegExp[] = [
  /^S0$/,
  /^L0$/,
  /^Fm$/,
  /^Rm$/,
  /^ReH$/,
  /^ReL$/,
  /^Rp[\d.]+$/,
  /^Rt[\d.]+$/,
  /^mE$/,
  /^A$/,
  /^A[\d.]+mm/,
  /^Ag$/,
  /^Agt$/,
  /^At$/,
  /^Z$/,
];
const FIGURES = 5;

export function resultRows(results: readonly Result[], words: PaperWords): ResultRow[] {
  const seen = new Set<string>();
  return inOrder(results).flatMap((result) => {
    if (seen.has(result.symbol)) return [];
    seen.add(result.symbol);
    return [resultRow(result, words)];
  });
}

export function withheldRows(withheld: readonly Withheld[], { said }: PaperWords): Omit<Withheld, 'code'>[] {
  return inOrder(withheld).map(({ symbol, name, reason }) => ({
    symbol,
    name: said(name),
    reason: said(inFieldWords(reason)),
  }));
}

const inOrder = <T extends { readonly symbol: string }>(ones: readonly T[]): T[] =>
  STATED.flatMap((stated) => ones.filter(({ symbol }) => stated.test(symbol)));

function resultRow(result: Result, { said }: PaperWords): ResultRow {
  const reported = result.rounded.at(0);
  return {
    symbol: result.symbol,
    name: said(result.name),
    si: textIn(result, 'si'),
    us: displayUnit(result.unit, 'us') === result.unit ? null : textIn(result, 'us'),
    reported:
      reported === undefined
        ? null
        : { text: withUnit(reported.text, reported.unit), rule: said(reported.rule) },
    uncertainty: uncertaintyIn(result),
    value: result.value,
    unit: result.unit,
    remarks: (result.remarks ?? []).map(said),
  };
}

function textIn(result: Result, system: DisplaySystem): string {
  const { value, unit } = inDisplayUnit(result.value, result.unit, system);
  return inPercent(value, unit);
}

/** Ratios are told in per cent, as the trade tells elongations. */
function inPercent(value: number, unit: UnitSymbol): string {
  return unit === '1'
    ? withUnit(numberText(convert(value, '1', '%'), FIGURES), '%')
    : withUnit(numberText(value, FIGURES), unit);
}

function withUnit(text: string, unit: UnitSymbol): string {
  return `${grouped(text)} ${unit}`;
}

const UNCERTAINTY_FIGURES = 2;

function uncertaintyIn({ uncertainty, unit }: Result): ResultRow['uncertainty'] {
  if (uncertainty === undefined) return null;
  const { expanded, coverageFactor } = uncertainty;
  const amount = (value: number, its: UnitSymbol): string =>
    `± ${its === '1' ? withUnit(numberText(convert(value, '1', '%'), UNCERTAINTY_FIGURES), '%') : withUnit(numberText(value, UNCERTAINTY_FIGURES), its)}`;
  const us = inDisplayUnit(expanded, unit, 'us');
  return {
    si: amount(expanded, unit),
    us: us.unit === unit ? null : amount(us.value, us.unit),
    coverageFactor: numberText(coverageFactor, 3),
  };
}
