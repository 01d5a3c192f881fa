/** Which decimal sign the cells of a table use, from cells that can be read in one way only. */
import type { GroupSign } from './import-plan.ts';

export interface DecimalEvidence {
  /** Cells that are a number with a decimal point (comma) and nothing else: "0.25", "12,5". */
  readonly point: number;
  readonly comma: number;
  /** Cells like "1.234" ("1,234"): thousands or thousandths. */
  readonly pointOrGroup: number;
  readonly commaOrGroup: number;
  /** Sign between thousands where a cell shows it beyond doubt: "1,234.5", "1 234". */
  readonly groupSigns: ReadonlySet<GroupSign>;
}

const NUMBER = /^[+\-−]?[\d.,' \u00a0\u2007\u2009\u202f]*\d[\d.,]*(?:[eE][+-]?\d{1,3})?$/;

/** Counts over cells; those that aren't numbers in any style are passed over. */
export function decimalEvidence(cells: Iterable<string>): DecimalEvidence {
  let point = 0;
  let comma = 0;
  let pointOrGroup = 0;
  let commaOrGroup = 0;
  const groupSigns = new Set<GroupSign>();
  for (const cell of cells) {
    if (!NUMBER.test(cell)) continue;
    const text = cell.replace(/^[+\-−]/, '').replace(/[eE][+-]?\d+$/, '');
    const blank = /^\d{1,3}(?:[ \u00a0\u2007\u2009\u202f]\d{3})+(?![\d ])/.test(text);
    const apostrophe = /^\d{1,3}(?:'\d{3})+(?!\d)/.test(text);
    if (blank) groupSigns.add(' ');
    if (apostrophe) groupSigns.add("'");
    const lastPoint = text.lastIndexOf('.');
    const lastComma = text.lastIndexOf(',');
    if (lastPoint !== -1 && lastComma !== -1) {
      if (lastPoint > lastComma) {
        point++;
        groupSigns.add(',');
      } else {
        comma++;
        groupSigns.add('.');
      }
    } else if (lastPoint !== -1) {
      if (text.indexOf('.') !== lastPoint) {
        groupSigns.add('.');
      } else if (!blank && !apostrophe && /^[1-9]\d{0,2}\.\d{3}$/.test(text)) pointOrGroup++;
      else point++;
    } else if (lastComma !== -1) {
      if (text.indexOf(',') !== lastComma) {
        groupSigns.add(',');
      } else if (!blank && !apostrophe && /^[1-9]\d{0,2},\d{3}$/.test(text)) commaOrGroup++;
      else comma++;
    }
  }
  return { point, comma, pointOrGroup, commaOrGroup, groupSigns };
}

export type DecimalSignOutcome =
  | {
      readonly kind: 'clear';
      readonly decimalSign: '.' | ',';
      readonly groupSign?: GroupSign;
      readonly evidence: string;
    }
  /** It could be either; a person has to say. */
  | { readonly kind: 'unclear'; readonly code: string; readonly sentence: string };

/** Settles the sign, or says why it can't be settled. Never guesses between thousands and thousandths. */
export function settleDecimalSign(found: DecimalEvidence): DecimalSignOutcome {
  const { point, comma, pointOrGroup, commaOrGroup, groupSigns } = found;
  if (point > 0 && comma > 0)
    return {
      kind: 'unclear',
      code: 'import-decimal-mixed',
      sentence: `Numbers are written both with a decimal point (${String(point)}) and with a decimal comma (${String(comma)}); say which one is the decimal sign, or write the file with one.`,
    };
  const clear = (decimalSign: '.' | ',', evidence: string): DecimalSignOutcome => {
    const group = [...groupSigns].find((sign) => sign !== decimalSign) ?? impliedGroup(decimalSign, found);
    return { kind: 'clear', decimalSign, ...(group === undefined ? {} : { groupSign: group }), evidence };
  };
  if (point > 0) return clear('.', `decimal point, beyond doubt in ${String(point)} numbers`);
  if (comma > 0) return clear(',', `decimal comma, beyond doubt in ${String(comma)} numbers`);
  if (groupSigns.has(',')) return clear('.', 'commas between thousands, so a decimal point');
  if (groupSigns.has('.')) return clear(',', 'points between thousands, so a decimal comma');
  if (commaOrGroup > 0)
    return {
      kind: 'unclear',
      code: 'import-decimal-unclear',
      sentence:
        'Numbers like "1,234" can be one thousand or one and a bit; say which sign is the decimal sign.',
    };
  if (pointOrGroup > 0) return clear('.', 'decimal point (three digits behind it throughout)');
  return clear('.', 'whole numbers only');
}

/** "1.234" beside "0,5": the point stands between thousands. */
function impliedGroup(decimalSign: '.' | ',', found: DecimalEvidence): GroupSign | undefined {
  if (decimalSign === ',' && found.pointOrGroup > 0) return '.';
  if (decimalSign === '.' && found.commaOrGroup > 0) return ',';
  return undefined;
}
