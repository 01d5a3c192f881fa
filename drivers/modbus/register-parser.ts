/** Readings out of Modbus registers. The bytes are those of the registers in the profile's order, high byte first. */
import {
  type ReadoutProfile,
  type LineFormatOf,
  expectedUnitOf,
} from '../../core/contract/readout-profile.ts';
import {
  type MisfitReason,
  MISFIT_REASONS,
  type ParsedLine,
  type ReadoutCounts,
  type ReadoutParser,
} from '../reading.ts';

type Register = LineFormatOf<'registers'>['registers'][number];
type RegisterProfile = ReadoutProfile & { readonly format: LineFormatOf<'registers'> };

/** Bytes that a register type takes. */
export function registerBytes(register: Pick<Register, 'type'>): 2 | 4 {
  return register.type === 'int16' || register.type === 'uint16' ? 2 : 4;
}

/** One record of the bytes is one reply; a rest at the end of an opening is given out as incomplete. */
export class RegisterParser implements ReadoutParser {
  readonly #profile: RegisterProfile;
  readonly #recordBytes: number;
  #held = Buffer.alloc(0);
  #bytes = 0;
  #readings = 0;
  #flagged = 0;
  #incomplete = 0;
  #chunkSeq = 0;

  constructor(profile: RegisterProfile) {
    this.#profile = profile;
    this.#recordBytes = profile.format.registers.reduce((sum, register) => sum + registerBytes(register), 0);
  }

  push(chunkSeq: number, bytes: Uint8Array): readonly ParsedLine[] {
    this.#chunkSeq = chunkSeq;
    this.#bytes += bytes.length;
    let data = Buffer.concat([this.#held, bytes]);
    const lines: ParsedLine[] = [];
    for (; data.length >= this.#recordBytes; data = data.subarray(this.#recordBytes))
      lines.push(this.#take(data.subarray(0, this.#recordBytes), lines.length));
    this.#held = Buffer.from(data);
    return lines;
  }

  tick(): readonly ParsedLine[] {
    return [];
  }

  end(): readonly ParsedLine[] {
    const bytes = this.#held;
    if (bytes.length === 0) return [];
    this.#held = Buffer.alloc(0);
    this.#incomplete++;
    const sentence = 'The reply did not end; it is kept raw only.';
    return [
      {
        chunkSeq: this.#chunkSeq,
        lineIndex: 0,
        bytes,
        outcome: { kind: 'misfit', reason: 'incomplete', sentence },
      },
    ];
  }

  counts(): ReadoutCounts {
    const misfits = Object.fromEntries(MISFIT_REASONS.map((reason) => [reason, 0])) as Record<
      MisfitReason,
      number
    >;
    misfits.incomplete = this.#incomplete;
    return {
      bytes: this.#bytes,
      readings: this.#readings,
      misfits,
      bytesWithoutLine: this.#held.length,
      flagged: this.#flagged,
    };
  }

  #take(bytes: Buffer, lineIndex: number): ParsedLine {
    const values = new Map<string, { mantissa: number | null; exponent: number }>();
    let at = 0;
    for (const register of this.#profile.format.registers) {
      values.set(
        register.name,
        decimalOfRegister(register, bytes.subarray(at, at + registerBytes(register))),
      );
      at += registerBytes(register);
    }
    const channels = this.#profile.channels.map((channel) => {
      const value = values.get(channel.field) ?? { mantissa: null, exponent: 0 };
      const unit = expectedUnitOf(channel);
      return { ...value, unit, status: value.mantissa === null ? ('error-word' as const) : ('ok' as const) };
    });
    this.#readings++;
    if (channels.some((channel) => channel.status !== 'ok')) this.#flagged++;
    const reading = { chunkSeq: this.#chunkSeq, lineIndex, channels, status: 'ok' as const };
    return { chunkSeq: this.#chunkSeq, lineIndex, bytes, outcome: { kind: 'reading', reading } };
  }
}

/** The decimal that a register shows. A float is taken as its shortest decimal text; NaN and infinity are no number. */
export function decimalOfRegister(
  { type, wordOrder }: Pick<Register, 'type' | 'wordOrder'>,
  bytes: Buffer,
): { mantissa: number | null; exponent: number } {
  const ordered =
    bytes.length === 4 && wordOrder === 'low-first'
      ? Buffer.from([...bytes.subarray(2), ...bytes.subarray(0, 2)])
      : bytes;
  switch (type) {
    case 'int16':
      return { mantissa: ordered.readInt16BE(), exponent: 0 };
    case 'uint16':
      return { mantissa: ordered.readUInt16BE(), exponent: 0 };
    case 'int32':
      return { mantissa: ordered.readInt32BE(), exponent: 0 };
    case 'uint32':
      return { mantissa: ordered.readUInt32BE(), exponent: 0 };
    case 'float32':
      return decimalOfFloat32(ordered.readFloatBE());
  }
}

/** Nine significant digits give every float32 back (IEEE 754, binary32). */
const FLOAT32_DIGITS = 9;

function decimalOfFloat32(value: number): { mantissa: number | null; exponent: number } {
  if (!Number.isFinite(value)) return { mantissa: null, exponent: 0 };
  if (value === 0) return { mantissa: 0, exponent: 0 };
  // The fewest digits that give the same float32 back.
  for (let digits = 1; digits <= FLOAT32_DIGITS; digits++) {
    const text = value.toExponential(digits - 1);
    if (Math.fround(Number(text)) !== value) continue;
    const [mantissa = '0', exponent = '0'] = text.split('e');
    return { mantissa: Number(mantissa.replace('.', '')), exponent: Number(exponent) - (digits - 1) };
  }
  throw new Error('nine digits give every float32 back');
}
