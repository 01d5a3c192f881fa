/** A second set of invented readouts, set aside while the learner was being made and tried only afterwards. */
import { uniformRandom } from '../../../drivers/simulated-frame/random.ts';

export interface RampMoment {
  readonly i: number;
  /** Seconds, kilonewtons, extension and travel in millimetres. */
  readonly t: number;
  readonly k: number;
  readonly e: number;
  readonly x: number;
}

const sum = (s: string): number => Array.from(s).reduce((total, c) => total + c.charCodeAt(0), 0) & 255;
const xor = (s: string): number => Array.from(s).reduce((total, c) => total ^ c.charCodeAt(0), 0);
const H = (n: number, w = 2): string => n.toString(16).toUpperCase().padStart(w, '0');
const c = (s: string): string => s.replace('.', ',');
const z = (v: number, w: number, d: number): string =>
  (v < 0 ? '-' : '+') + Math.abs(v).toFixed(d).padStart(w, '0');

type Channels = readonly (readonly [string | null, string | null])[];

/** Name, line, channels (null: not said by the line), terminator. */
export const SET_ASIDE: readonly (readonly [string, (m: RampMoment) => string, Channels, string?])[] = [
  ['sign sep', (m) => `${m.k < 0 ? '-' : '+'}${Math.abs(m.k).toFixed(2).padStart(8)} kN`, [['force', 'kN']]],
  ['G lb CR', (m) => `G ${(m.k * 224.8).toFixed(1).padStart(9)} lb`, [['force', 'lbf']], '\r'],
  [
    '001 ST',
    (m) => `${String(m.i % 1000).padStart(3, '0')},ST,${z(m.k, 7, 2)},kN,${z(m.e, 6, 3)},mm,OK`,
    [
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  ],
  [
    'T:clock',
    (m) => `T:00:00:${(10 + m.t).toFixed(2)} L:${(m.k * 1000).toFixed(0).padStart(6)} E:${m.e.toFixed(4)}`,
    [
      ['time', 's'],
      ['force', null],
      ['extension', null],
    ],
  ],
  [
    'tab units',
    (m) => `${(m.k * 224.8).toFixed(1)}lbf\t${(m.e / 25.4).toFixed(4)}in`,
    [
      ['force', 'lbf'],
      ['extension', 'in'],
    ],
  ],
  [
    'clock ; comma',
    (m) => `12:00:${String(Math.floor(m.t) + 10)};${c(m.k.toFixed(1))};kN;${c(m.e.toFixed(2))};mm`,
    [
      ['time', 's'],
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  ],
  [
    'ints',
    (m) =>
      `L ${String(Math.round(Math.abs(m.k) * 1000)).padStart(7, '0')} X ${String(Math.round(Math.abs(m.e) * 1000)).padStart(6, '0')}`,
    [
      ['force', null],
      ['extension', null],
    ],
  ],
  [
    'W=KG,S',
    (m) => `W=${(m.k * 101.97).toFixed(2).padStart(8)}KG,${m.i % 3 ? 'S' : 'U'}`,
    [['force', 'kgf']],
  ],
  [
    'seq end',
    (m) => `${m.k.toFixed(2)} ${m.e.toFixed(3)} ${String(m.i % 10000).padStart(4, '0')}`,
    [
      [null, null],
      [null, null],
    ],
  ],
  ['><', (m) => `>${m.k.toFixed(2)}<`, [[null, null]]],
  [
    'paren',
    (m) => `(${m.k.toFixed(2)},${m.e.toFixed(3)})`,
    [
      [null, null],
      [null, null],
    ],
  ],
  [
    'semi units',
    (m) => `${m.k.toFixed(2)} kN; ${m.e.toFixed(4)} mm; ${m.x.toFixed(2)} mm`,
    [
      ['force', 'kN'],
      ['extension', 'mm'],
      ['travel', 'mm'],
    ],
  ],
  [
    'Load=,Disp=',
    (m) => `Load=${m.k.toFixed(2)}kN,Disp=${m.x.toFixed(3)}mm,Time=${m.t.toFixed(2)}s`,
    [
      ['force', 'kN'],
      ['travel', 'mm'],
      ['time', 's'],
    ],
  ],
  ['F=exp N', (m) => `F=${(m.k < 0 ? '' : '+') + (m.k * 1000).toExponential(3)} N`, [['force', 'N']]],
  [
    '[0001]',
    (m) => `[${String(m.i).padStart(4, '0')}] ${m.k.toFixed(2)} kN ${m.e.toFixed(3)} mm`,
    [
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  ],
  [
    'A B',
    (m) => `A ${m.k.toFixed(2)} B ${m.e.toFixed(3)}`,
    [
      [null, null],
      [null, null],
    ],
  ],
  [
    '#..#',
    (m) => `#${m.k.toFixed(2)};${m.e.toFixed(3)}#`,
    [
      [null, null],
      [null, null],
    ],
  ],
  [
    '@',
    (m) => `${m.k.toFixed(2)}kN@${m.e.toFixed(3)}mm`,
    [
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  ],
  [
    'pipes',
    (m) => `${m.k.toFixed(2).padStart(8)} | ${m.e.toFixed(3).padStart(7)} | ${m.x.toFixed(1).padStart(6)}`,
    [
      [null, null],
      [null, null],
      [null, null],
    ],
  ],
  [
    '1 234,5 N',
    (m) => {
      const [whole = '', decimals = ''] = (Math.abs(m.k) * 1000).toFixed(1).split('.');
      return `${whole.replace(/\B(?=(\d{3})+$)/g, ' ')},${decimals} N`;
    },
    [['force', 'N']],
  ],
  [
    'N  ST',
    (m) => `${(Math.abs(m.k) * 1000).toFixed(2).padStart(9, '0')}N  ${m.i % 4 ? 'ST' : 'UN'}`,
    [['force', 'N']],
  ],
  [
    'ch1=',
    (m) => `ch1=${m.k.toFixed(2)};ch2=${m.e.toFixed(3)}`,
    [
      [null, null],
      [null, null],
    ],
  ],
  [
    't ms',
    (m) => `t=${Math.round(m.t * 1000)}ms,F=${m.k.toFixed(2)}kN`,
    [
      ['time', 'ms'],
      ['force', 'kN'],
    ],
  ],
  ['N+', (m) => `N${z(m.k * 1000, 8, 2)}`, [['force', null]]],
  [
    'tab unit seq',
    (m) => `${m.k.toFixed(2)}\tkN\t${m.e.toFixed(3)}\tmm\t${m.i % 100}`,
    [
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  ],
  ['ID W', (m) => `ID:07 W:${z(m.k * 101.97, 6, 1)}kg`, [['force', 'kgf']]],
  [
    'no crlf ;',
    (m) => `${m.k.toFixed(2)},${m.e.toFixed(3)}`,
    [
      [null, null],
      [null, null],
    ],
    ';',
  ],
  [
    'ENC LC',
    (m) => `ENC ${Math.round(m.x * 1000)} LC ${Math.round(m.k * 1000)}`,
    [
      [null, null],
      ['force', null],
    ],
  ],
  [
    'mm:ss',
    (m) => `00:${(10 + m.t).toFixed(1)} ${m.k.toFixed(2)} kN`,
    [
      ['time', 's'],
      ['force', 'kN'],
    ],
  ],
  [
    'sum glued',
    (m) => {
      const s = `${z(m.k, 7, 3)}${z(m.e, 6, 3)}`;
      return s + H(sum(s));
    },
    [
      [null, null],
      [null, null],
    ],
  ],
  [
    'OVERLOAD',
    (m) => (m.i > 40 && m.i < 50 ? `F OVERLOAD kN` : `F ${m.k.toFixed(2).padStart(8)} kN`),
    [['force', 'kN']],
  ],
  ['-OL-', (m) => (m.i > 40 && m.i < 50 ? `  -OL-` : m.k.toFixed(2).padStart(7)), [[null, null]]],
  [
    'ST,NT,- ',
    (m) =>
      `ST,NT,${m.k < 0 ? '-' : '+'}${Math.abs(m.k * 100)
        .toFixed(1)
        .padStart(8)} kg`,
    [['force', 'kgf']],
  ],
  ['= num', (m) => `= ${m.k.toFixed(2).padStart(8)}`, [[null, null]]],
  [
    'fr',
    (m) => `F : ${c(m.k.toFixed(2))} kN ; D : ${c(m.x.toFixed(3))} mm`,
    [
      ['force', 'kN'],
      [null, 'mm'],
    ],
  ],
  [
    'CAPS',
    (m) => `${m.k.toFixed(2)} KN ${m.e.toFixed(3)} MM`,
    [
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  ],
  [
    'Pk Cur',
    (m) => `Pk ${(m.k * 1000 + 5).toFixed(0)} N Cur ${(m.k * 1000).toFixed(0)} N`,
    [
      ['force', 'N'],
      ['force', 'N'],
    ],
  ],
  ['stx A', (m) => `\x02A ${z(m.k, 7, 2)} kN\x03`, [['force', 'kN']], ''],
  [
    'PQR',
    (m) => `P${z(m.k, 6, 2)} Q${z(m.e, 6, 3)} R${String(m.i).padStart(5, '0')}`,
    [
      ['force', null],
      [null, null],
    ],
  ],
  [
    'stx etx xor hex',
    (m) => {
      const s = `${z(m.k, 7, 2)}kN`;
      return `\x02${s}\x03${H(xor(s))}`;
    },
    [['force', 'kN']],
  ],
  [
    'stx etx xor hex incl etx',
    (m) => {
      const s = `${z(m.k, 7, 2)}kN\x03`;
      return `\x02${s}${H(xor(s))}`;
    },
    [['force', 'kN']],
  ],
  ['nul', (m) => `${m.k.toFixed(2)} kN\x00\x00`, [['force', 'kN']]],
  [
    'utf8 um',
    (m) => Buffer.from(`${m.k.toFixed(2)} kN ${(m.e * 1000).toFixed(0)} µm`).toString('latin1'),
    [
      ['force', 'kN'],
      ['extension', 'µm'],
    ],
  ],
  [
    'units first',
    (m) => `kN ${m.k.toFixed(2)} mm ${m.e.toFixed(3)}`,
    [
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  ],
  [
    'load(lbf)=',
    (m) => `load(lbf)=${(m.k * 224.8).toFixed(1)} ext(in)=${(m.e / 25.4).toFixed(4)}`,
    [
      ['force', 'lbf'],
      ['extension', 'in'],
    ],
  ],
  [
    'Load [kN] ',
    (m) => `Load [kN]: ${m.k.toFixed(2)}, Ext [mm]: ${m.e.toFixed(3)}`,
    [
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  ],
  [
    'int csv',
    (m) => `${Math.round(m.k * 1000)},${Math.round(m.e * 1000)}`,
    [
      [null, null],
      [null, null],
    ],
  ],
  ['dec comma only', (m) => c(m.k.toFixed(2)), [[null, null]]],
  [
    'dec comma tab',
    (m) => `${c(m.t.toFixed(2))}\t${c(m.k.toFixed(2))}\t${c(m.e.toFixed(3))}`,
    [
      ['time', 's'],
      [null, null],
      [null, null],
    ],
  ],
  ['daN', (m) => `${(m.k * 100).toFixed(1)} daN`, [['force', 'N']]],
  [
    'space tail letter',
    (m) => `${m.k.toFixed(3).padStart(9)} ${m.e.toFixed(4).padStart(9)} *`,
    [
      [null, null],
      [null, null],
    ],
  ],
  [
    'iso time',
    (m) => `2031-04-05T09:00:${(10 + m.t).toFixed(3)}Z ${m.k.toFixed(2)} kN`,
    [
      ['time', 's'],
      ['force', 'kN'],
    ],
  ],
  [
    'epoch ms',
    (m) => `${1900000000000 + Math.round(m.t * 1000)},${m.k.toFixed(2)},${m.e.toFixed(3)}`,
    [
      ['time', 'ms'],
      [null, null],
      [null, null],
    ],
  ],
  [
    'epoch s',
    (m) => `${(1900000000 + m.t).toFixed(2)} ${m.k.toFixed(2)}`,
    [
      ['time', 's'],
      [null, null],
    ],
  ],
  [
    'quoted csv',
    (m) => `"${m.k.toFixed(2)}","kN","${m.e.toFixed(3)}","mm"`,
    [
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  ],
  [
    'xml',
    (m) => `<f>${m.k.toFixed(2)}</f><e>${m.e.toFixed(3)}</e>`,
    [
      ['force', null],
      ['extension', null],
    ],
  ],
  [
    'trail sign',
    (m) => `${Math.abs(m.k).toFixed(2).padStart(8, '0')}${m.k < 0 ? '-' : '+'} kN`,
    [['force', 'kN']],
  ],
  ['dots', (m) => `LOAD......${m.k.toFixed(2)} kN`, [['force', 'kN']]],
  [
    '3 labelled multi',
    (m) => `Load: ${m.k.toFixed(2)} kN, Extension: ${m.e.toFixed(3)} mm, Crosshead: ${m.x.toFixed(2)} mm`,
    [
      ['force', 'kN'],
      ['extension', 'mm'],
      ['travel', 'mm'],
    ],
  ],
  [
    'check mod100',
    (m) => {
      const s = `${z(m.k, 7, 2)} kN`;
      return `${s}/${String(Array.from(s).reduce((a, ch) => a + ch.charCodeAt(0), 0) % 100).padStart(2, '0')}`;
    },
    [['force', 'kN']],
  ],
  ['hexcounter', (m) => `${H(m.i & 255)} ${m.k.toFixed(2)} kN`, [['force', 'kN']]],
];

/** A ramp without a break, over so many lines. */
export function rampBytes(line: (m: RampMoment) => string, terminator: string, count: number): Buffer {
  const noise = uniformRandom(12345);
  const lines = Array.from(
    { length: count },
    (_, i) =>
      line({
        i,
        t: i * 0.1,
        k: i * 0.4 + noise() * 0.05 - 0.02,
        e: i * 0.013 + noise() * 0.002,
        x: i * 0.05,
      }) + terminator,
  );
  return Buffer.from(lines.join(''), 'latin1');
}
