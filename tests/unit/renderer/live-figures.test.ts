import { describe, expect, it } from 'vitest';
import type { Session } from '../../../core/contract/session.ts';
import { MadeUpBridge } from './made-up-bridge.ts';
import { liveFigures, roomFor } from '../../../renderer/stations/pull/live-figures.ts';
import { en } from '../../../renderer/words/en.ts';

async function listening(): Promise<Session> {
  const bridge = new MadeUpBridge({ rateHz: 50, pace: 1 });
  const profiles = await bridge.request('readout.profiles', {});
  if (!profiles.ok || profiles.value.profiles[0] === undefined) throw new Error('no profile');
  await bridge.request('readout.open', {
    source: { kind: 'simulated', scenario: 'any' },
    profile: profiles.value.profiles[0].profile,
  });
  const session = await bridge.request('session.get', {});
  if (!session.ok) throw new Error(session.fault.sentence);
  return session.value;
}

const withLoad = (
  session: Session,
  value: number | null,
  status: Session['live'][number]['status'],
): Session => ({
  ...session,
  live: session.live.map((l) => (l.quantity === 'force' ? { ...l, value, status } : l)),
});

describe('the figures of the moment', () => {
  it('show the load with fixed places in the unit that the plan calls for', async () => {
    const session = await listening();
    expect(liveFigures(withLoad(session, 34_633, 'ok'), 50_000, 'SI', 'en', en).load).toEqual({
      text: '34.63',
      unit: 'kN',
    });
    expect(liveFigures(withLoad(session, 346, 'ok'), 1_500, 'SI', 'en', en).load).toEqual({
      text: '346',
      unit: 'N',
    });
    expect(liveFigures(withLoad(session, 34_633, 'ok'), 50_000, 'US', 'en', en).load).toEqual({
      text: '7\u202f786',
      unit: 'lbf',
    });
  });

  it('never show an overload, a blank or an error word as a number', async () => {
    const session = await listening();
    for (const status of ['overload', 'blank', 'error-word', 'malformed', 'out-of-range'] as const) {
      const { load } = liveFigures(withLoad(session, 12, status), 50_000, 'SI', 'en', en);
      expect(load.text).toBeNull();
      expect(load.noneBecause).toBe(en.figures[status]);
    }
  });

  it('have no travel where the readout has none, and no peak before the pull', async () => {
    const figures = liveFigures(await listening(), 50_000, 'SI', 'en', en);
    expect(figures.travel).toBeNull();
    expect(figures.extension).not.toBeNull();
    expect(figures.peak.text).toBeNull();
  });

  it('keep the place of each channel while the readout is silent, and before its first line', async () => {
    const session = await listening();
    const figures = liveFigures({ ...session, live: [] }, 50_000, 'SI', 'en', en);
    expect(figures.extension).toEqual({ text: null, unit: 'mm' });
    expect(figures.extensionRate).toEqual({ text: null, unit: 'mm/min' });
    expect(figures.travel).toBeNull();
    const beside = { readout: { channels: [{ quantity: 'travel' }] } } as unknown as Session['second'];
    expect(liveFigures({ ...session, live: [], second: beside }, 50_000, 'SI', 'en', en).travel).toEqual({
      text: null,
      unit: 'mm',
    });
    // The frame's travel is shown until the extensometer on a port of its own speaks.
    const frame = {
      channels: [{ quantity: 'force' }, { quantity: 'travel' }],
    } as unknown as Session['readout'];
    const extensometer = {
      readout: { channels: [{ quantity: 'extension' }] },
    } as unknown as Session['second'];
    const silent = liveFigures(
      { ...session, readout: frame, second: extensometer, live: [] },
      50_000,
      'SI',
      'en',
      en,
    );
    expect([silent.extension, silent.travel?.unit]).toEqual([null, 'mm']);
    expect(liveFigures({ ...session, readout: null, live: [] }, 50_000, 'SI', 'en', en).extension).toBeNull();
  });

  it('show load and peak by the step of the readout, in SI and in US customary units', async () => {
    const session = withLoad(await listening(), 34_633, 'ok');
    // A readout in steps of 10 N; 10 N are 2.248 lbf (NIST SP 811), so lbf go in steps of 2.
    expect(liveFigures(session, 50_000, 'SI', 'en', en, 10).load.text).toBe('34.63');
    expect(liveFigures(session, 50_000, 'US', 'en', en, 10).load.text).toBe('7\u202f786');
    expect(liveFigures(session, 50_000, 'SI', 'en', en, 1).load.text).toBe('34.633');
    expect(liveFigures(session, 50_000, 'US', 'en', en, 0.44482216152605).load.text).toBe('7\u202f785.8');
  });

  it('keep room for the digits to come', () => {
    expect(roomFor(60, 'kN', 'en')).toBe(4.5);
    expect(roomFor(13_500, 'lbf', 'en')).toBe(5.5);
    expect(roomFor(60, 'kN', 'en', 0.001)).toBe(5.5);
  });
});
