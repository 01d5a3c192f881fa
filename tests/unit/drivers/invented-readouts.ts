/** Lines of invented readouts, of every make that a workshop may have. All of our own devising. */
import { uniformRandom } from '../../../drivers/simulated-frame/random.ts';

/** What the instruments see at one line. */
export interface Moment {
  readonly index: number;
  readonly seconds: number;
  readonly newtons: number;
  readonly extensionMm: number;
  readonly travelMm: number;
  readonly moving: boolean;
  /** Above the range of the load cell. */
  readonly overload: boolean;
}

export interface InventedReadout {
  readonly name: string;
  readonly line: (moment: Moment) => string;
  readonly terminator?: string;
  /** In order: quantity and unit, null where the lines don't say. */
  readonly channels: readonly (readonly [string | null, string | null])[];
  /** Lines before the first reading. */
  readonly heading?: readonly string[];
  /** Extra bytes per line: damage, remarks. Given the index of the line before which they come. */
  readonly between?: (index: number) => string | null;
  /** Share of lines that are readings, at least; 1 where nothing is disturbed. */
  readonly readable?: number;
}

/** A pull in moments: rest, rise, hardening, break, rest. */
export function momentsOf(count: number, seed = 7): Moment[] {
  const noise = uniformRandom(seed);
  return Array.from({ length: count }, (_, index) => {
    const share = index / count;
    const pulled = Math.max(0, share - 0.08);
    const broken = share > 0.9;
    const force = broken ? 0 : 21_000 * Math.min(1, pulled / 0.25) * (1 - 0.25 * Math.max(0, pulled - 0.6));
    return {
      index,
      seconds: index * 0.1,
      newtons: force + (noise() - 0.5) * 12,
      extensionMm: pulled * 12 * Math.min(1, 0.05 + pulled) + (noise() - 0.5) * 0.0008,
      travelMm: pulled * 20,
      moving: share > 0.08 && !broken,
      overload: false,
    };
  });
}

const sign = (value: number): string => (value < 0 ? '-' : '+');
const fixed = (value: number, decimals: number): string => value.toFixed(decimals);
const padded = (value: number, width: number, decimals: number): string =>
  value.toFixed(decimals).padStart(width);
const zeros = (value: number, width: number, decimals: number): string =>
  sign(value) +
  Math.abs(value)
    .toFixed(decimals)
    .padStart(width - 1, '0');
const comma = (text: string): string => text.replace('.', ',');
const lbf = (newtons: number): number => newtons / 4.4482216152605;
const inch = (mm: number): number => mm / 25.4;
const hex = (value: number, digits = 2): string => value.toString(16).toUpperCase().padStart(digits, '0');
const xor = (text: string): number => Array.from(text).reduce((sum, c) => sum ^ c.charCodeAt(0), 0);
const total = (text: string): number => Array.from(text).reduce((sum, c) => sum + c.charCodeAt(0), 0) & 0xff;
const clock = (seconds: number, decimals: number): string => {
  const whole = 9 * 3600 + 59 * 60 + 40 + seconds;
  const two = (value: number): string => String(Math.floor(value)).padStart(2, '0');
  return `${two(whole / 3600)}:${two((whole / 60) % 60)}:${(whole % 60).toFixed(decimals).padStart(decimals === 0 ? 2 : decimals + 3, '0')}`;
};

export const INVENTED_READOUTS: readonly InventedReadout[] = [
  { name: 'a bare number', line: (m) => fixed(m.newtons, 1), channels: [['force', null]] },
  {
    name: 'a number and its unit',
    line: (m) => `${fixed(m.newtons / 1000, 3)} kN`,
    channels: [['force', 'kN']],
  },
  {
    name: 'a number with the unit stuck to it',
    line: (m) => `${zeros(m.newtons / 1000, 8, 3)}kN`,
    channels: [['force', 'kN']],
  },
  {
    name: 'a unit before the number',
    line: (m) => `lbf ${padded(lbf(m.newtons), 8, 1)}`,
    channels: [['force', 'lbf']],
  },
  {
    name: 'CR only',
    line: (m) => `N ${fixed(lbf(m.newtons), 1)} lbf`,
    terminator: '\r',
    channels: [['force', 'lbf']],
  },
  {
    name: 'LF only, pounds',
    line: (m) => `${padded(lbf(m.newtons), 9, 0)} LB G`,
    terminator: '\n',
    channels: [['force', 'lbf']],
  },
  {
    name: 'status letters before the number',
    line: (m) => `${m.moving ? 'US' : 'ST'},GS,${zeros(m.newtons / 1000, 9, 2)}kN`,
    channels: [['force', 'kN']],
  },
  {
    name: 'status letters without delimiters',
    line: (m) => `${m.moving ? 'M' : 'S'}${zeros(m.newtons, 8, 1)} N`,
    channels: [['force', 'N']],
  },
  {
    name: 'status behind the unit that comes and goes',
    line: (m) => `${padded(lbf(m.newtons), 8, 1)} lb${m.moving ? ' M' : ''}`,
    channels: [['force', 'lbf']],
  },
  {
    name: 'comma separated with time',
    line: (m) => `${fixed(m.seconds, 2)},${fixed(m.newtons, 1)},${fixed(m.extensionMm, 4)}`,
    channels: [
      ['time', 's'],
      ['force', null],
      [null, null],
    ],
  },
  {
    name: 'comma separated with a heading',
    heading: ['Time (s),Load (kN),Extension (mm)'],
    line: (m) => `${fixed(m.seconds, 2)},${fixed(m.newtons / 1000, 3)},${fixed(m.extensionMm, 4)}`,
    channels: [
      ['time', 's'],
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  },
  {
    name: 'tabs, heading with units below',
    heading: ['Time\tForce\tStroke', 's\tlbf\tin'],
    line: (m) => `${fixed(m.seconds, 1)}\t${fixed(lbf(m.newtons), 0)}\t${fixed(inch(m.travelMm), 4)}`,
    channels: [
      ['time', 's'],
      ['force', 'lbf'],
      ['travel', 'in'],
    ],
  },
  {
    name: 'semicolons and decimal comma',
    line: (m) =>
      `${comma(fixed(m.newtons / 1000, 3))};${comma(fixed(m.extensionMm, 4))};${comma(fixed(m.travelMm, 2))}`,
    channels: [
      ['force', null],
      [null, null],
      [null, null],
    ],
  },
  {
    name: 'one number with decimal comma and unit',
    line: (m) => `${comma(padded(m.newtons / 1000, 8, 2))} kN`,
    channels: [['force', 'kN']],
  },
  {
    name: 'decimal comma, blanks',
    line: (m) => `${comma(padded(m.newtons / 1000, 9, 2))} kN ${comma(padded(m.extensionMm, 9, 3))} mm`,
    channels: [
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  },
  {
    name: 'labels with an equals sign',
    line: (m) => `L=${fixed(lbf(m.newtons), 1)} X=${fixed(inch(m.extensionMm), 4)}`,
    channels: [
      ['force', null],
      ['extension', null],
    ],
  },
  {
    name: 'labels of different make',
    line: (m) => `L=${padded(m.newtons, 8, 1)} X:${padded(m.extensionMm, 7, 3)}`,
    channels: [
      ['force', null],
      ['extension', null],
    ],
  },
  {
    name: 'labels with units',
    line: (m) => `LOAD: ${fixed(lbf(m.newtons), 0)} lbf | EXT: ${fixed(inch(m.extensionMm), 4)} in`,
    channels: [
      ['force', 'lbf'],
      ['extension', 'in'],
    ],
  },
  {
    name: 'labels stuck to the numbers',
    line: (m) => `F${zeros(m.newtons, 8, 1)}E${zeros(m.extensionMm, 8, 4)}`,
    channels: [
      ['force', null],
      ['extension', null],
    ],
  },
  {
    name: 'key=value with semicolons',
    line: (m) =>
      `time=${fixed(m.seconds, 3)};force=${fixed(m.newtons / 1000, 4)};pos=${fixed(m.travelMm, 3)}`,
    channels: [
      ['time', 's'],
      ['force', null],
      ['travel', null],
    ],
  },
  {
    name: 'objects with quoted names',
    line: (m) =>
      `{"t":${fixed(m.seconds, 1)},"load":${fixed(m.newtons, 1)},"ext":${fixed(m.extensionMm, 4)}}`,
    channels: [
      ['time', 's'],
      ['force', null],
      ['extension', null],
    ],
  },
  {
    name: 'fixed columns',
    line: (m) => `${padded(m.seconds, 8, 2)}${padded(m.newtons, 10, 1)}${padded(m.extensionMm, 10, 4)}`,
    channels: [
      ['time', 's'],
      ['force', null],
      [null, null],
    ],
  },
  {
    name: 'fixed columns with a blank field',
    line: (m) =>
      `${padded(m.newtons, 9, 1)}${m.index % 3 === 0 ? padded(m.extensionMm, 9, 4) : ' '.repeat(9)}${padded(m.travelMm, 8, 2)}`,
    channels: [
      ['force', null],
      [null, null],
      [null, null],
    ],
  },
  {
    name: 'sign apart from its digits',
    line: (m) =>
      `${sign(m.newtons)} ${padded(Math.abs(m.newtons), 8, 1)} N ${sign(m.extensionMm)} ${padded(Math.abs(m.extensionMm), 7, 4)} mm`,
    channels: [
      ['force', 'N'],
      ['extension', 'mm'],
    ],
  },
  {
    name: 'several blanks as the delimiter',
    line: (m) => `${fixed(m.newtons / 1000, 3)}   ${fixed(m.extensionMm, 4)}`,
    channels: [
      ['force', null],
      [null, null],
    ],
  },
  {
    name: 'a delimiter of two characters',
    line: (m) => `${fixed(m.seconds, 1)}::${fixed(m.newtons, 1)}::${fixed(m.extensionMm, 3)}`,
    channels: [
      ['time', 's'],
      ['force', null],
      [null, null],
    ],
  },
  {
    name: 'a delimiter with blanks around it',
    line: (m) => `${fixed(m.newtons, 1)} N | ${fixed(m.extensionMm, 4)} mm`,
    channels: [
      ['force', 'N'],
      ['extension', 'mm'],
    ],
  },
  {
    name: 'units in fields of their own',
    line: (m) => `${fixed(m.newtons / 1000, 3)},kN,${fixed(m.extensionMm, 4)},mm`,
    channels: [
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  },
  {
    name: 'a sentence with an xor check behind an asterisk',
    line: (m) => {
      const text = `GXLD,${String(m.index % 10000).padStart(4, '0')},${fixed(m.newtons, 1)},N,${fixed(m.extensionMm, 4)},mm`;
      return `$${text}*${hex(xor(text))}`;
    },
    channels: [
      ['force', 'N'],
      ['extension', 'mm'],
    ],
  },
  {
    name: 'a sum in hexadecimal at the end',
    line: (m) => {
      const text = `${zeros(m.newtons / 1000, 8, 3)} ${zeros(m.extensionMm, 8, 4)} `;
      return text + hex(total(text));
    },
    channels: [
      ['force', null],
      [null, null],
    ],
  },
  {
    name: 'a lower-case xor behind a comma',
    line: (m) => {
      const text = `${fixed(lbf(m.newtons), 1)},lbf`;
      return `${text},${hex(xor(text)).toLowerCase()}`;
    },
    channels: [['force', 'lbf']],
  },
  {
    name: 'STX and ETX around the line',
    line: (m) => `\u0002${zeros(m.newtons, 8, 0)}\u0003`,
    channels: [['force', null]],
  },
  {
    name: 'STX and ETX without CR and LF',
    line: (m) => `\u0002${zeros(m.newtons / 1000, 7, 2)}kN\u0003`,
    terminator: '',
    channels: [['force', 'kN']],
  },
  {
    name: 'STX, ETX and a check byte',
    line: (m) => {
      const text = `${zeros(m.newtons, 8, 0)}N\u0003`;
      // Kept off CR and LF, as makers do.
      return `\u0002${text}${String.fromCharCode(xor(text) | 0x80)}`;
    },
    channels: [['force', 'N']],
  },
  {
    name: 'a sequence counter in front',
    line: (m) =>
      `${String(m.index % 256).padStart(3, '0')},${fixed(m.newtons, 1)},${fixed(m.extensionMm, 4)}`,
    channels: [
      ['force', null],
      [null, null],
    ],
  },
  {
    name: 'a counter with a sign before it',
    line: (m) =>
      `#${String(m.index).padStart(5, '0')} F ${fixed(m.newtons / 1000, 3)} kN E ${fixed(m.extensionMm, 4)} mm`,
    channels: [
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  },
  {
    name: 'milliseconds in front',
    line: (m) => `${String(Math.round(m.seconds * 1000))};${fixed(m.newtons, 1)}`,
    channels: [
      ['time', 'ms'],
      ['force', null],
    ],
  },
  {
    name: 'a clock in front',
    line: (m) => `${clock(m.seconds, 1)} ${fixed(m.newtons, 1)} N`,
    channels: [
      ['time', 's'],
      ['force', 'N'],
    ],
  },
  {
    name: 'a date and a clock',
    line: (m) =>
      `2031-04-05 ${clock(m.seconds, 3)}, ${fixed(lbf(m.newtons), 1)} lbf, ${fixed(inch(m.extensionMm), 5)} in`,
    channels: [
      ['time', 's'],
      ['force', 'lbf'],
      ['extension', 'in'],
    ],
  },
  {
    name: 'a clock in brackets',
    line: (m) => `[${clock(m.seconds, 2)}] ${padded(m.newtons / 1000, 8, 3)}kN ${padded(m.travelMm, 8, 3)}mm`,
    channels: [
      ['time', 's'],
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  },
  {
    name: 'powers of ten',
    line: (m) => `${m.newtons.toExponential(4)},${m.extensionMm.toExponential(3)}`,
    channels: [
      ['force', null],
      [null, null],
    ],
  },
  {
    name: 'thousands with commas',
    line: (m) =>
      `${lbf(m.newtons).toLocaleString('en-US', { minimumFractionDigits: 1, maximumFractionDigits: 1 })} lbf`,
    channels: [['force', 'lbf']],
  },
  {
    name: 'overload words now and then',
    line: (m) => (m.index % 17 === 5 ? 'ST,GS,   OL   kN' : `ST,GS,${zeros(m.newtons / 1000, 8, 2)}kN`),
    channels: [['force', 'kN']],
  },
  {
    name: 'dashes for a missing extensometer',
    line: (m) => `${fixed(m.newtons, 0)} N, ${m.index > 120 ? '------' : fixed(m.extensionMm, 4)} mm`,
    channels: [
      ['force', 'N'],
      ['extension', 'mm'],
    ],
  },
  {
    name: 'garbage lines',
    line: (m) => `${fixed(m.newtons / 1000, 3)};${fixed(m.extensionMm, 4)}`,
    between: (index) => (index % 23 === 7 ? '\u00ff\u0001@@1.2' : null),
    channels: [
      ['force', null],
      [null, null],
    ],
    readable: 0.9,
  },
  {
    name: 'remarks',
    line: (m) => `${fixed(m.newtons, 1)} N`,
    between: (index) => (index % 50 === 0 ? '# range 1 of 3' : null),
    channels: [['force', 'N']],
  },
  {
    name: 'a greeting',
    heading: ['Load indicator ready', 'calibrated'],
    line: (m) => `${fixed(m.newtons, 1)} N`,
    channels: [['force', 'N']],
  },
  {
    name: 'numbered channels',
    line: (m) => `CH1:${zeros(m.newtons / 1000, 8, 3)} CH2:${zeros(m.extensionMm, 8, 4)}`,
    channels: [
      ['force', null],
      [null, null],
    ],
  },
  {
    name: 'load and its peak',
    line: (m) => `F=${fixed(m.newtons, 0)}N PEAK=${fixed(21_000 * Math.min(1, m.index / 60), 0)}N`,
    channels: [
      ['force', 'N'],
      ['force', 'N'],
    ],
  },
  {
    name: 'tonnes and percent',
    line: (m) => `${fixed(m.newtons / 9806.65, 4)} t ${fixed(m.extensionMm / 0.5, 3)} %`,
    channels: [
      ['force', 'tf'],
      ['strain', '%'],
    ],
  },
  {
    name: 'microstrain',
    line: (m) => `${fixed(m.newtons, 1)},N,${fixed(m.extensionMm * 20000, 0)},ue`,
    channels: [
      ['force', 'N'],
      ['strain', 'µε'],
    ],
  },
  {
    name: 'load and travel by name',
    line: (m) => `Load ${padded(m.newtons / 1000, 7, 3)} kN  Pos ${padded(m.travelMm, 7, 2)} mm`,
    channels: [
      ['force', 'kN'],
      ['travel', 'mm'],
    ],
  },
  {
    name: 'extension and travel without names',
    line: (m) => `${fixed(m.newtons / 1000, 2)}kN ${fixed(m.extensionMm, 4)}mm ${fixed(m.travelMm, 2)}mm`,
    channels: [
      ['force', 'kN'],
      ['extension', 'mm'],
      ['travel', 'mm'],
    ],
  },
  {
    name: 'a station number in front',
    line: (m) => `01,${zeros(m.newtons, 9, 1)},N`,
    channels: [['force', 'N']],
  },
  {
    name: 'tension shown as negative',
    line: (m) => `${fixed(-m.newtons - 3, 1)} N`,
    channels: [['force', 'N']],
  },
  {
    name: 'a trailing delimiter',
    line: (m) => `${fixed(m.newtons, 1)},${fixed(m.extensionMm, 4)},`,
    channels: [
      ['force', null],
      [null, null],
    ],
  },
  {
    name: 'a slash between the numbers',
    line: (m) => `${fixed(m.newtons, 1)}/${fixed(m.extensionMm, 4)}`,
    channels: [
      ['force', null],
      [null, null],
    ],
  },
  {
    name: 'signs as the only separators',
    line: (m) => `${zeros(m.newtons, 9, 1)}${zeros(m.extensionMm, 9, 4)}`,
    channels: [
      ['force', null],
      [null, null],
    ],
  },
  {
    name: 'kilograms with net and gross',
    line: (m) => `${m.moving ? ' ' : 'S'} N ${padded(m.newtons / 9.80665, 9, 2)} kg`,
    channels: [['force', 'kgf']],
  },
  {
    name: 'LF before CR',
    line: (m) => `${fixed(m.newtons, 1)} N`,
    terminator: '\n\r',
    channels: [['force', 'N']],
  },
  {
    name: 'a letter for the state behind everything',
    line: (m) => `${zeros(m.newtons / 1000, 8, 3)} ${zeros(m.extensionMm, 8, 4)} ${m.moving ? 'R' : 'H'}`,
    channels: [
      ['force', null],
      [null, null],
    ],
  },
  {
    name: 'time with its unit',
    line: (m) => `t=${fixed(m.seconds, 2)}s F=${fixed(m.newtons / 1000, 3)}kN d=${fixed(m.travelMm, 3)}mm`,
    channels: [
      ['time', 's'],
      ['force', 'kN'],
      // The travel, under a letter that may be an extensometer's dial as well.
      [null, 'mm'],
    ],
  },
  {
    name: 'a decimal check behind a blank',
    line: (m) => {
      const text = `${zeros(m.newtons, 8, 1)} N`;
      return `${text} ${String(total(text)).padStart(3, '0')}`;
    },
    channels: [['force', 'N']],
  },
  {
    name: 'a CRC of four digits',
    line: (m) => {
      const text = `${fixed(m.newtons, 1)};${fixed(m.extensionMm, 4)}`;
      let crc = 0xffff;
      for (const c of text) {
        crc ^= c.charCodeAt(0);
        for (let bit = 0; bit < 8; bit++) crc = (crc & 1) === 1 ? (crc >>> 1) ^ 0xa001 : crc >>> 1;
      }
      return `${text};${hex(crc, 4)}`;
    },
    channels: [
      ['force', null],
      [null, null],
    ],
  },
  {
    name: 'a hexadecimal tail of unknown make',
    line: (m) => `${fixed(m.newtons, 1)},${fixed(m.extensionMm, 4)},${hex((m.index * 7919 + 13) % 65536, 4)}`,
    channels: [
      ['force', null],
      [null, null],
    ],
  },
];

/** The bytes that such a readout sends over a pull. */
export function bytesOf(
  readout: InventedReadout,
  { count = 220, seed = 7 } = {},
): { bytes: Buffer; lines: number; disturbed: number } {
  const terminator = readout.terminator ?? '\r\n';
  let text = (readout.heading ?? []).map((line) => line + terminator).join('');
  let disturbed = readout.heading?.length ?? 0;
  for (const moment of momentsOf(count, seed)) {
    const extra = readout.between?.(moment.index) ?? null;
    if (extra !== null) {
      text += extra + terminator;
      disturbed++;
    }
    text += readout.line(moment) + terminator;
  }
  return { bytes: Buffer.from(text, 'latin1'), lines: count, disturbed };
}
