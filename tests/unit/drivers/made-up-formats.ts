/** Line formats put together at random from what displays, controllers and converter boxes do. All of our own devising. */
import type { Moment } from './invented-readouts.ts';

type Rng = () => number;

export interface MadeUpFormat {
  readonly words: string;
  readonly line: (moment: Moment) => string;
  readonly terminator: string;
  readonly parity: 'none' | 'even' | 'odd';
  /** In order: what the lines say, null where they don't; and the value that a line carries. */
  readonly channels: readonly MadeUpChannel[];
}

export interface MadeUpChannel {
  readonly quantity: 'force' | 'extension' | 'time' | null;
  readonly unit: string | null;
  readonly value: (moment: Moment) => number;
}

interface Quantity {
  readonly quantity: 'force' | 'extension' | 'time';
  readonly unit: string;
  readonly labels: readonly string[];
  readonly decimals: number;
  readonly value: (moment: Moment) => number;
}

const FORCES: readonly Quantity[] = [
  {
    quantity: 'force',
    unit: 'kN',
    labels: ['LOAD', 'F', 'Force'],
    decimals: 3,
    value: (m) => m.newtons / 1000,
  },
  { quantity: 'force', unit: 'N', labels: ['Ld', 'FORCE'], decimals: 1, value: (m) => m.newtons },
  {
    quantity: 'force',
    unit: 'lbf',
    labels: ['L', 'Load'],
    decimals: 0,
    value: (m) => m.newtons / 4.4482216152605,
  },
];
const EXTENSIONS: readonly Quantity[] = [
  {
    quantity: 'extension',
    unit: 'mm',
    labels: ['EXT', 'X', 'Extn'],
    decimals: 4,
    value: (m) => m.extensionMm,
  },
  {
    quantity: 'extension',
    unit: 'in',
    labels: ['ELONG', 'Ext'],
    decimals: 5,
    value: (m) => m.extensionMm / 25.4,
  },
];
const TIMES: readonly Quantity[] = [
  { quantity: 'time', unit: 's', labels: ['T', 'TIME'], decimals: 2, value: (m) => m.seconds },
  {
    quantity: 'time',
    unit: 'ms',
    labels: ['t', 'Time'],
    decimals: 0,
    value: (m) => Math.round(m.seconds * 1000),
  },
];

const STRUCTURES = ['delimited', 'columns', 'labelled', 'strung'] as const;

/** The same seed gives the same format. */
export function madeUpFormat(rng: Rng): MadeUpFormat {
  const pick = <T>(list: readonly T[]): T => list[Math.floor(rng() * list.length)] as T;
  const chance = (share: number): boolean => rng() < share;
  const structure = pick(STRUCTURES);
  const quantities = [
    ...(structure !== 'strung' && chance(0.35) ? [pick(TIMES)] : []),
    pick(FORCES),
    ...(chance(0.6) ? [pick(EXTENSIONS)] : []),
  ];
  const comma = chance(0.25);
  const sign = pick(['minus', 'always', 'behind'] as const);
  const filling = pick(['none', 'blanks', 'zeros'] as const);
  const saysUnit = structure === 'columns' ? chance(0.3) : chance(0.6);
  const number = (value: number, decimals: number): string => {
    const digits = Math.abs(value).toFixed(decimals);
    const filled =
      filling === 'zeros' ? digits.padStart(8, '0') : filling === 'blanks' ? digits.padStart(8) : digits;
    const minus = Number(digits) !== 0 && value < 0;
    const signed =
      sign === 'behind'
        ? `${filled}${minus ? '-' : ' '}`
        : minus
          ? `-${filled}`
          : sign === 'always'
            ? `+${filled}`
            : filled;
    return comma ? signed.replace('.', ',') : signed;
  };
  const unitGap = pick(['', ' ']);
  const unitOf = (its: Quantity): string =>
    saysUnit ? `${sign === 'behind' ? ' ' : unitGap}${its.unit}` : '';
  const status = pick([null, null, 'pair', 'letter'] as const);
  const sequence = chance(0.25);
  const check = pick([null, null, null, 'xor', 'sum', 'crc'] as const);
  const delimiter = pick(comma ? [';', '\t', ' | '] : [',', ';', '\t', ' | ', ', ']);
  const labels = quantities.map((its) => pick(its.labels));
  const equals = pick(['=', ':', '= ', ': ']);
  const statusText = (m: Moment): string =>
    status === null ? '' : status === 'pair' ? (m.moving ? 'US' : 'ST') : m.moving ? 'M' : 'S';
  const counter = (m: Moment): string => String(m.index % 10_000).padStart(4, '0');

  const body = (m: Moment): string => {
    const numbers = quantities.map((its) => number(its.value(m), its.decimals));
    const withUnits = quantities.map((its, i) => `${numbers[i] ?? ''}${unitOf(its)}`);
    const head = [...(sequence ? [counter(m)] : []), ...(status === null ? [] : [statusText(m)])];
    switch (structure) {
      case 'delimited':
        return [...head, ...withUnits].join(delimiter);
      case 'columns':
        return [...head, ...withUnits.map((text) => text.padStart(14))].join(' ');
      case 'labelled':
        return [...head, ...withUnits.map((text, i) => `${labels[i] ?? ''}${equals}${text}`)].join(' ');
      case 'strung':
        return `${sequence ? `${counter(m)} ` : ''}${statusText(m)}${status === null ? '' : ' '}${withUnits.join(' ')}`;
    }
  };
  const line = (m: Moment): string => {
    const text = body(m);
    return check === null ? text : `${text}${check === 'sum' ? ' ' : '*'}${checkText(text, check)}`;
  };
  const terminator = pick(['\r\n', '\r', '\n', '\u0003']);
  const parity = pick(['none', 'none', 'none', 'even', 'odd'] as const);
  const saysQuantity = structure === 'labelled';
  return {
    words: [
      structure,
      structure === 'delimited' ? JSON.stringify(delimiter) : '',
      quantities.map((its) => `${its.quantity}${saysUnit ? ` ${its.unit}` : ''}`).join('+'),
      `sign ${sign}`,
      `filled with ${filling}`,
      comma ? 'decimal comma' : '',
      status === null ? '' : `status ${status}`,
      sequence ? 'sequence' : '',
      check === null ? '' : `check ${check}`,
      JSON.stringify(terminator),
      parity === 'none' ? '' : `7 bits ${parity}`,
    ]
      .filter((part) => part !== '')
      .join(', '),
    line,
    terminator,
    parity,
    channels: quantities.map((its) => ({
      quantity: saysQuantity || saysUnit ? its.quantity : null,
      unit: saysUnit ? its.unit : null,
      value: (m) => Number(its.value(m).toFixed(its.decimals)),
    })),
  };
}

function checkText(text: string, kind: 'xor' | 'sum' | 'crc'): string {
  const bytes = Array.from(text, (c) => c.charCodeAt(0));
  const hex = (value: number, digits: number): string =>
    value.toString(16).toUpperCase().padStart(digits, '0');
  if (kind === 'xor')
    return hex(
      bytes.reduce((sum, byte) => sum ^ byte, 0),
      2,
    );
  if (kind === 'sum') return hex(bytes.reduce((sum, byte) => sum + byte, 0) & 0xff, 2);
  let crc = 0xffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = (crc & 1) === 1 ? (crc >>> 1) ^ 0xa001 : crc >>> 1;
  }
  return hex(crc, 4);
}

/** What such a readout sends. */
export function bytesOfFormat(
  { line, terminator, parity }: MadeUpFormat,
  moments: readonly Moment[],
): Buffer {
  const bytes = Buffer.from(moments.map((m) => line(m) + terminator).join(''), 'latin1');
  if (parity === 'none') return bytes;
  const odd = parity === 'odd' ? 1 : 0;
  return Buffer.from(
    bytes.map((byte) => (byte.toString(2).replaceAll('0', '').length % 2 === odd ? byte : byte | 0x80)),
  );
}
