/** Registers are asked for over Modbus and lines come over everything else: a profile of the one kind is refused for the other. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readoutProfile } from '../../../core/contract/readout-profile.ts';
import type { Source } from '../../../core/contract/source.ts';
import { createTransport } from '../../../drivers/create-transport.ts';
import { choiceMade, suggestedProfile } from '../../../renderer/stations/readout/readout-choice.ts';

const shipped = (name: string) =>
  readoutProfile.parse(JSON.parse(readFileSync(`fixtures/readouts/${name}.json`, 'utf8')));
const [registers, lines] = [shipped('modbus-registers'), shipped('labelled')];
const serial: Source = { kind: 'serial', path: '/dev/nothing' };
const server: Source = { kind: 'tcp', host: '127.0.0.1', port: 4001 };
const modbus: Source = { kind: 'modbus-tcp', host: '127.0.0.1', port: 502, unitId: 1 };

describe('a source and the profile for it', () => {
  it.each([serial, server])('says of registers at a $kind source how they are asked for', (source) => {
    expect(() => createTransport(source, { profile: registers })).toThrow(/modbus-rtu:PATH#UNIT/);
    expect(() => createTransport(source, { profile: lines })).not.toThrow();
  });

  it('says of lines over Modbus that registers are wanted', () => {
    expect(() => createTransport(modbus, { profile: lines })).toThrow(/not Modbus registers/);
    expect(() => createTransport(modbus, { profile: registers })).not.toThrow();
  });

  it('is suggested the one that was used last with what speaks as it does, over whatever kind of source', () => {
    const other = shipped('decimal-comma');
    const offered = [{ profile: registers }, { profile: other }, { profile: lines }];
    const last = { lines: lines.name, registers: registers.name };
    expect(suggestedProfile(offered, serial, last)).toBe(lines.name);
    expect(suggestedProfile(offered, server, last)).toBe(lines.name);
    expect(suggestedProfile(offered, modbus, last)).toBe(registers.name);
    const made = choiceMade({ source: null, profileNames: last, second: null }, server, other.name);
    expect(made.profileNames).toEqual({ lines: other.name, registers: registers.name });
    expect(suggestedProfile(offered, serial, { lines: null, registers: null })).toBe(other.name);
  });
});
