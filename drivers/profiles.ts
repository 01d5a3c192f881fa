/** The readout profiles that ship: those of the simulated frame and one of each kind of invented readout. */
import { type ReadoutProfile, readoutProfile } from '../core/contract/readout-profile.ts';
import decimalComma from '../fixtures/readouts/decimal-comma.json' with { type: 'json' };
import fixedColumns from '../fixtures/readouts/fixed-columns.json' with { type: 'json' };
import framedStxEtx from '../fixtures/readouts/framed-stx-etx.json' with { type: 'json' };
import indicatorStatusKn from '../fixtures/readouts/indicator-status-kn.json' with { type: 'json' };
import labelled from '../fixtures/readouts/labelled.json' with { type: 'json' };
import modbusRegisters from '../fixtures/readouts/modbus-registers.json' with { type: 'json' };
import polled from '../fixtures/readouts/polled.json' with { type: 'json' };
import printKeyLbf from '../fixtures/readouts/print-key-lbf.json' with { type: 'json' };
import sentenceWithCheck from '../fixtures/readouts/sentence-with-check.json' with { type: 'json' };
import simulatedFrameSi from '../fixtures/readouts/simulated-frame-si.json' with { type: 'json' };
import simulatedFrameUs from '../fixtures/readouts/simulated-frame-us.json' with { type: 'json' };

/** Checked when the program starts: a shipped profile that is not valid is a bug. */
export const SHIPPED_PROFILES: readonly ReadoutProfile[] = [
  simulatedFrameSi,
  simulatedFrameUs,
  indicatorStatusKn,
  printKeyLbf,
  fixedColumns,
  labelled,
  decimalComma,
  framedStxEtx,
  sentenceWithCheck,
  polled,
  modbusRegisters,
].map((file) => readoutProfile.parse(file));

/** The profile that ships under a name; null where none does. */
export function shippedProfile(name: string): ReadoutProfile | null {
  return SHIPPED_PROFILES.find((profile) => profile.name === name) ?? null;
}
