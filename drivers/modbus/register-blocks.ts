/** Which registers are asked for together. */
import type { LineFormatOf } from '../../core/contract/readout-profile.ts';
import { registerBytes } from './register-parser.ts';

type Register = LineFormatOf<'registers'>['registers'][number];

/** Registers of one request (Modbus application protocol 1.1b3, section 6.3). */
export const REGISTERS_PER_REQUEST_MAX = 125;
/** Registers between two that are wanted, read along rather than asked around. */
const GAP_MAX = 8;

export interface RegisterBlock {
  readonly space: Register['space'];
  readonly address: number;
  readonly count: number;
}

/** As few requests as will do, in the order of their addresses. */
export function registerBlocks(registers: readonly Register[]): RegisterBlock[] {
  const blocks: { space: Register['space']; address: number; count: number }[] = [];
  const sorted = [...registers].sort((a, b) => a.space.localeCompare(b.space) || a.address - b.address);
  for (const register of sorted) {
    const end = register.address + registerBytes(register) / 2;
    const last = blocks.at(-1);
    const joins =
      last?.space === register.space &&
      register.address <= last.address + last.count + GAP_MAX &&
      end - last.address <= REGISTERS_PER_REQUEST_MAX;
    if (last !== undefined && joins) last.count = Math.max(last.count, end - last.address);
    else blocks.push({ space: register.space, address: register.address, count: end - register.address });
  }
  return blocks;
}

/** The bytes of the registers in the profile's order, out of those of the blocks. Throws a RangeError where a block came short. */
export function bytesOfRegisters(
  registers: readonly Register[],
  blocks: readonly { readonly block: RegisterBlock; readonly bytes: Buffer }[],
): Buffer {
  return Buffer.concat(
    registers.map((register) => {
      const found = blocks.find(
        ({ block }) =>
          block.space === register.space &&
          register.address >= block.address &&
          register.address < block.address + block.count,
      );
      const at = (register.address - (found?.block.address ?? 0)) * 2;
      const bytes = found?.bytes.subarray(at, at + registerBytes(register));
      if (bytes?.length !== registerBytes(register))
        throw new RangeError('the reply is shorter than what was asked for');
      return bytes;
    }),
  );
}
