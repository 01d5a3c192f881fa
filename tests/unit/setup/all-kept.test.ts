/** What the tests of faults compare raw bytes with tells what is missing, doubled, changed or made up. */
import { describe, expect, it } from 'vitest';
import { differenceOf } from '../../app/support/all-kept.ts';

const LINES = ['0,10.0,0.1\r\n', '1,11.0,0.2\r\n', '2,12.0,0.3\r\n', '3,13.0,0.4\r\n'];
const differs = (raw: string, ...except: number[]): boolean =>
  differenceOf(raw, LINES, new Set(except)) !== null;

describe('the raw bytes of a pull', () => {
  it('may lack an excepted line in whole or in its middle, and the LF before it', () => {
    expect(differs(LINES.join(''))).toBe(false);
    expect(differs(`${LINES[0]}${LINES[2]}${LINES[3]}`, 1)).toBe(false);
    expect(differs(`${LINES[0]}1,1.2\r\n${LINES[2]}${LINES[3]}`, 1)).toBe(false);
    expect(differs(`0,10.0,0.1\r${LINES[2]}${LINES[3]}`, 1)).toBe(false);
    expect(differs(`${LINES[0]}1,14.3\r\n${LINES[3]}`, 1, 2)).toBe(true);
    expect(differs(`${LINES[0]}1,1.3\r\n${LINES[3]}`, 1, 2)).toBe(false);
  });

  it('may lack, double, change and hold nothing else', () => {
    expect(differs(`${LINES[0]}${LINES[2]}${LINES[3]}`)).toBe(true);
    expect(differs(`${LINES[0]}${LINES[2]}${LINES[3]}`, 2)).toBe(true);
    expect(differs(`${LINES[0]}${LINES.join('')}`, 1)).toBe(true);
    expect(differs(`${LINES.slice(0, 3).join('')}3,13.1,0.4\r\n`, 1)).toBe(true);
    expect(differs(`${LINES.join('')}x`, 1)).toBe(true);
    expect(differs(`0,10.0,0.1\r${LINES.slice(1).join('')}`, 2)).toBe(true);
    expect(differs(`${LINES[1]}${LINES[0]}${LINES[2]}${LINES[3]}`, 0)).toBe(true);
  });
});
