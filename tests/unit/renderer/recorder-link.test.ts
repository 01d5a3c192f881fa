import { afterEach, describe, expect, it } from 'vitest';
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
function windowWith(link: RecorderLink) {
  let tell: ((link: RecorderLink) => void) | null = null;
  const bridge = {
    platform: 'linux',
    request: (name: string) =>
      Promise.resolve(
        name === 'window.info'
          ? { ok: true, value: { recorder: link } }
          : { ok: false, fault: { code: 'away', sentence: 'The recorder is away.' } },
      ),
    on: (name: string, callback: (event: RecorderLink) => void) => {
      if (name === 'recorder-link') tell = callback;
      return () => undefined;
    },
  } as unknown as Bridge;
  return { bridge, tell: (next: RecorderLink) => tell?.(next) };
}

const settled = () => new Promise((resolve) => setTimeout(resolve, 5));
let letGo = (): void => undefined;
afterEach(() => letGo());

describe('how the link to the recorder stands', () => {
  it('is known to a page that was loaded after it had failed, so that it can be tried again', async () => {
    letGo = connectStore(windowWith(FAILED).bridge);
    await settled();
    expect(recorderLink.value?.state).toBe('failed');
  });

  it('is what was told last, even when the first answer comes later', async () => {
    const window = windowWith(FAILED);
    letGo = connectStore(window.bridge);
    window.tell(CONNECTED);
    await settled();
    expect(recorderLink.value?.state).toBe('connected');
  });
});
