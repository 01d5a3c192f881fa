/** Which pulls say that no specimen gave their readings. */
import { expect, it } from 'vitest';
import { originOfPull } from '../../../core/pull/readings-origin.ts';

const serial = { kind: 'serial' };
const simulated = { kind: 'simulated' };
const replay = { kind: 'replay' };

it.each([
  ['one frame', serial, null, null],
  ['a frame and an extensometer', serial, serial, null],
  ['a simulated frame', simulated, null, 'simulated'],
  ['a simulated frame and an extensometer', simulated, serial, 'simulated'],
  ['a frame and a simulated extensometer', serial, simulated, 'simulated'],
  ['a replay and a simulated extensometer', replay, simulated, 'simulated'],
  ['a frame and a replay', serial, replay, 'replay'],
] as const)('%s', (_name, source, second, origin) => {
  expect(originOfPull({ source, second: second === null ? null : { source: second } })).toBe(origin);
});
