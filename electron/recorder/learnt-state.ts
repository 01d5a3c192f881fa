/** What learning has come to, as the page is told it. */
import { LEARNT_LINES_SHOWN_MAX, type LearningState } from '../../core/contract/learn-requests.ts';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import { createParser } from '../../drivers/create-parser.ts';
import type { Learnt } from '../../drivers/learn/learn-lines.ts';
import { PreviewBuffer } from './preview-buffer.ts';

export const NOTHING: LearningState = {
  state: 'listening',
  from: '',
  source: null,
  settings: null,
  tried: 0,
  bytes: 0,
  proposal: null,
  lines: [],
  fault: null,
};

export function outcome(state: LearningState, learnt: Learnt | null, bytes: Buffer): LearningState {
  if (learnt !== null)
    return {
      ...state,
      state: 'done',
      proposal: { ...learnt, channels: [...learnt.channels], remarks: [...learnt.remarks] },
      lines: linesOf(learnt.profile, bytes),
    };
  const sentence =
    state.bytes === 0
      ? `Nothing comes from ${state.from}; check the cable, and whether the readout sends by itself or must be asked.`
      : `${String(state.bytes)} bytes came from ${state.from}, but they make no lines with numbers; look up its baud rate in the manual of the readout.`;
  return {
    ...state,
    state: 'failed',
    fault: { code: state.bytes === 0 ? 'port-silent' : 'nothing-learned', sentence },
  };
}

/** The first lines as the profile reads them, raw and parsed beside each other. */
function linesOf(profile: ReadoutProfile, bytes: Buffer): LearningState['lines'] {
  const preview = new PreviewBuffer(profile.channels);
  const parser = createParser(profile);
  const sevenBits = profile.serial?.dataBits === 7 ? Buffer.from(bytes.map((byte) => byte & 0x7f)) : bytes;
  for (const line of parser.push(0, sevenBits, 0).slice(0, LEARNT_LINES_SHOWN_MAX)) preview.push(line);
  return preview.all(0).lines;
}
