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

export interface ShippedProfile {
  readonly file: string;
  readonly profile: ReadoutProfile;
}

const FILES = {
  'simulated-frame-si': simulatedFrameSi,
  'simulated-frame-us': simulatedFrameUs,
  'indicator-status-kn': indicatorStatusKn,
  'print-key-lbf': printKeyLbf,
  'fixed-columns': fixedColumns,
  labelled,
  'decimal-comma': decimalComma,
  'framed-stx-etx': framedStxEtx,
  'sentence-with-check': sentenceWithCheck,
  polled,
  'modbus-registers': modbusRegisters,
};
let read: readonly ShippedProfile[] | null = null;

/**
 * By the name of their file, which is how a command line names them. Checked when they are first asked for; one that is not
 * valid is a bug.
 */
export const shippedProfileFiles = (): readonly ShippedProfile[] =>
  (read ??= Object.entries(FILES).map(([file, content]) => ({
    file,
    profile: readoutProfile.parse(content),
  })));

export const shippedProfiles = (): readonly ReadoutProfile[] =>
  shippedProfileFiles().map(({ profile }) => profile);

/** The profile that ships under a name, its own or that of its file; null where none does. */
export function shippedProfile(name: string): ReadoutProfile | null {
  return (
    shippedProfileFiles().find(({ file, profile }) => file === name || profile.name === name)?.profile ?? null
  );
}
