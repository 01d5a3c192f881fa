/**
 * Registers to decimals, by type and word order. Registers are sent high byte first (Modbus application protocol 1.1b3,
 * section 4.2); which word of two comes first is left to the device. 1234.5 as binary32 is 449A5000 (IEEE 754, worked by hand).
 */
import { expect, it } from 'vitest';
import { decimalOfRegister } from '../../../drivers/modbus/register-parser.ts';

it.each([
  ['int16', 'high-first', 'fffe', { mantissa: -2, exponent: 0 }],
  ['uint16', 'high-first', 'fffe', { mantissa: 65_534, exponent: 0 }],
  ['int16', 'low-first', '0102', { mantissa: 258, exponent: 0 }],
  ['int32', 'high-first', 'fffffffe', { mantissa: -2, exponent: 0 }],
  ['int32', 'low-first', 'fffeffff', { mantissa: -2, exponent: 0 }],
  ['uint32', 'high-first', '00011170', { mantissa: 70_000, exponent: 0 }],
  ['uint32', 'low-first', '11700001', { mantissa: 70_000, exponent: 0 }],
  ['float32', 'high-first', '449a5000', { mantissa: 12_345, exponent: -1 }],
  ['float32', 'low-first', '5000449a', { mantissa: 12_345, exponent: -1 }],
  ['float32', 'high-first', '7fc00000', { mantissa: null, exponent: 0 }],
  ['float32', 'high-first', '7f800000', { mantissa: null, exponent: 0 }],
] as const)('%s, %s: %s', (type, wordOrder, hex, expected) => {
  expect(decimalOfRegister({ type, wordOrder }, Buffer.from(hex, 'hex'))).toEqual(expected);
});
