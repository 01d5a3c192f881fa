/** The register of instruments as the archive knows it, and which of them each readout is used with. */
import { effect, signal, untracked } from '@preact/signals';
import { z } from 'zod';
import type { InstrumentLine } from '../../core/contract/instrument-requests.ts';
import type { InstrumentKind } from '../../core/instruments/instrument.ts';
import { remember, remembered } from '../store/remembered.ts';
import { archiveGeneration, request, session } from '../store/session-store.ts';

/** In the order in which they were entered, with those that are out of use. */
export const register = signal<readonly InstrumentLine[]>([]);

export async function readRegister(): Promise<void> {
  const read = await request('instrument.list', {});
  if (read.ok) register.value = read.value.instruments;
}

/** Reads it when a recorder answers and when another archive is used. Returns what stops it. */
export function followRegister(): () => void {
  return effect(() => {
    // Both are looked at, so that a change of either reads it anew.
    const [generation, pid] = [archiveGeneration.value, session.value?.recorder.pid];
    if (pid !== undefined && generation >= 0) untracked(() => void readRegister());
  });
}

/** A frame without a port. */
export const TYPED_READOUT = '';

/** Of every readout by the identity of its profile, which a new name does not change; the calliper goes with the person, whatever the readout. */
const choiceForm = z.object({
  byReadout: z
    .record(
      z.string(),
      z.object({
        frame: z.number().nullable().catch(null),
        'force-channel': z.number().nullable().catch(null),
        extensometer: z.number().nullable().catch(null),
      }),
    )
    .catch({}),
  calliper: z.number().nullable().catch(null),
});
type Choice = z.infer<typeof choiceForm>;

const KEY = 'gaugemark.instruments';
/** Readouts whose instruments are remembered; a laboratory has a handful. */
const READOUTS_MAX = 50;
const NOTHING = { frame: null, 'force-channel': null, extensometer: null };

export const instrumentChoice = signal<Choice>(
  remembered(KEY, choiceForm, { byReadout: {}, calliper: null }),
);

export function keepInstrumentChoice(): void {
  remember(KEY, () => instrumentChoice.value);
}

export function chosenOf(readout: string, kind: InstrumentKind): number | null {
  const named =
    kind === 'calliper'
      ? instrumentChoice.value.calliper
      : (instrumentChoice.value.byReadout[readout] ?? NOTHING)[kind];
  return offered(kind).some(({ instrumentId }) => instrumentId === named) ? named : null;
}

export function choose(readout: string, kind: InstrumentKind, instrumentId: number | null): void {
  if (kind === 'calliper') {
    instrumentChoice.value = { ...instrumentChoice.value, calliper: instrumentId };
    return;
  }
  const { [readout]: before, ...others } = instrumentChoice.value.byReadout;
  const kept = Object.entries(others).slice(-(READOUTS_MAX - 1));
  instrumentChoice.value = {
    ...instrumentChoice.value,
    byReadout: { ...Object.fromEntries(kept), [readout]: { ...(before ?? NOTHING), [kind]: instrumentId } },
  };
}

/** Those in use. */
export const offered = (kind: InstrumentKind): readonly InstrumentLine[] =>
  register.value.filter((one) => one.form.kind === kind && !one.retired);

/** Numbers of all that a pull at this readout is made with. */
export function chosenIds(readout: string): number[] {
  return (['frame', 'force-channel', 'extensometer', 'calliper'] as const)
    .map((kind) => chosenOf(readout, kind))
    .filter((id) => id !== null);
}
