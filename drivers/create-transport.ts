/** From a source (data) to the transport that serves it. The only place that knows all kinds. */
import type { ReadoutProfile } from '../core/contract/readout-profile.ts';
import type { Source } from '../core/contract/source.ts';
import { type MonotonicClock, SourceFaultError, type Transport, monotonicUs } from './transport.ts';

export interface TransportOptions {
  readonly profile: ReadoutProfile;
  readonly clock?: MonotonicClock;
}

/** Throws a SourceFaultError where the source can't exist (scenario unknown); opening comes later. */
export function createTransport(source: Source, options: TransportOptions): Transport {
  const { clock = monotonicUs } = options;
  throw new SourceFaultError({
    code: 'source-failed',
    sentence: `Readouts of the kind "${source.kind}" can't be opened yet (${String(clock())}).`,
  });
}
