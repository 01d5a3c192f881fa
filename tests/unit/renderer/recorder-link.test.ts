import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Bridge } from '../../../core/contract/bridge.ts';
import type { RecorderLink } from '../../../core/contract/window-requests.ts';
import { connectStore, recorderLink } from '../../../renderer/store/session-store.ts';

const FAILED: RecorderLink = {
  state: 'failed',
  fault: { code: 'recorder-died', sentence: 'The recorder is left alone.' },
  restartCount: 8,
};
const CONNECTED: RecorderLink = { state: 'connected', fault: null, restartCount: 0 };

/** A window whose recorder is gone: it tells how the link stands when asked, and by events. */
function windowWith(first: RecorderLink) {
  let link = first;
  let tell: ((link: RecorderLink) => void) | null = null;
  const bridge = {
    platform: 'linux',
    request: (name: string) => {
      // As it stands when it is asked; the answer is a while under way.
      const stands = { ok: true, value: { recorder: link } };
      const away = { ok: false, fault: { code: 'away', sentence: 'The recorder is away.' } };
      const answer = name === 'window.info' ? stands : away;
      return new Promise((resolve) => setTimeout(() => resolve(answer), name === 'window.info' ? 20 : 0));
    },
    on: (name: string, callback: (event: RecorderLink) => void) => {
      if (name === 'recorder-link') tell = callback;
      return () => undefined;
    },
  } as unknown as Bridge;
  return {
    bridge,
    tell: (next: RecorderLink) => {
      link = next;
      tell?.(next);
    },
    /** Stands so from now on, and the event that would tell it is lost. */
    turnUntold: (next: RecorderLink) => (link = next),
  };
}

const settled = () => new Promise((resolve) => setTimeout(resolve, 80));
let letGo = (): void => undefined;
afterEach(() => letGo());

describe('how the link to the recorder stands', () => {
  it('is known to a page that was loaded after it had failed, so that it can be tried again', async () => {
    letGo = connectStore(windowWith(FAILED).bridge);
    await settled();
    expect(recorderLink.value?.state).toBe('failed');
  });

  it('is learnt by asking again, even when the event that tells it is lost', async () => {
    const window = windowWith({ state: 'connecting', fault: null, restartCount: 0 });
    letGo = connectStore(window.bridge);
    await settled();
    expect(recorderLink.value?.state).toBe('connecting');
    window.turnUntold(FAILED);
    await vi.waitUntil(() => recorderLink.value?.state === 'failed', { timeout: 5_000 });
  });

  it('is what was told last, even when the first answer comes later', async () => {
    const window = windowWith(FAILED);
    letGo = connectStore(window.bridge);
    // The question is under way, and its answer will say "failed".
    await new Promise((resolve) => setTimeout(resolve, 10));
    window.tell(CONNECTED);
    await settled();
    expect(recorderLink.value?.state).toBe('connected');
  });
});
