import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { PolledTransport } from '../../../drivers/polled/polled-transport.ts';
import type { SourceFault, Transport, TransportListener } from '../../../drivers/transport.ts';

beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] });
});
afterEach(() => {
  vi.useRealTimers();
});

/** A readout in the test's hand: what it was asked, and what it answers. */
function readout(): { transport: Transport; asked: string[]; answer: (text: string) => void } {
  const asked: string[] = [];
  let listener: TransportListener | null = null;
  return {
    asked,
    answer: (text) => listener?.onChunk(Buffer.from(text), 0),
    transport: {
      kind: 'serial',
      place: 'test',
      open: (given) => {
        listener = given;
        return Promise.resolve();
      },
      write: (bytes) => {
        asked.push(Buffer.from(bytes).toString('latin1'));
        return Promise.resolve();
      },
      close: () => Promise.resolve(),
    },
  };
}

async function polled(
  intervalMs = 100,
  timeoutMs = 500,
): Promise<ReturnType<typeof readout> & { faults: SourceFault[]; close: () => Promise<void> }> {
  const far = readout();
  const faults: SourceFault[] = [];
  const transport = new PolledTransport(far.transport, {
    request: 'R\r',
    intervalMs,
    timeoutMs,
    framing: { terminator: 'any' },
  });
  await transport.open({
    onChunk: () => undefined,
    onClose: () => undefined,
    onNote: () => undefined,
    onFault: (fault) => faults.push(fault),
  });
  return { ...far, faults, close: () => transport.close() };
}

describe('a polled readout', () => {
  it('is asked again only after it has answered, and not before its interval', async () => {
    const { asked, answer } = await polled();
    expect(asked).toEqual(['R\r']);
    vi.advanceTimersByTime(400);
    expect(asked).toHaveLength(1);
    answer('12.5\r\n');
    vi.advanceTimersByTime(0);
    expect(asked).toHaveLength(2);
    answer('12.6\r\n');
    vi.advanceTimersByTime(99);
    expect(asked).toHaveLength(2);
    vi.advanceTimersByTime(1);
    expect(asked).toHaveLength(3);
  });

  it('takes half an answer for none, and two lines of one answer for one', async () => {
    const { asked, answer } = await polled();
    answer('12.');
    vi.advanceTimersByTime(300);
    expect(asked).toHaveLength(1);
    answer('5\r\n13\r\n');
    answer('14\r\n');
    vi.advanceTimersByTime(0);
    expect(asked).toHaveLength(2);
  });

  it('that stays silent is asked again after its time, and the silence is told once', async () => {
    const { asked, faults, answer } = await polled();
    vi.advanceTimersByTime(500 * 4);
    expect(asked.length).toBeGreaterThanOrEqual(4);
    expect(faults).toMatchObject([{ code: 'no-answer' }]);
    answer('1\r\n');
    vi.advanceTimersByTime(100 + 500);
    expect(faults).toHaveLength(2);
  });

  it('is asked nothing after it was closed', async () => {
    const { asked, answer, close } = await polled();
    await close();
    answer('1\r\n');
    vi.advanceTimersByTime(5_000);
    expect(asked).toHaveLength(1);
  });
});
