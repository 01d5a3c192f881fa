/** A port that is read in the turn in which its bytes are handed on: a pipe stands for the port, an emitter for the poller. */
import { execFileSync } from 'node:child_process';
import { EventEmitter } from 'node:events';
import { closeSync, constants, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { LinePace } from '../../../drivers/serial/line-pace.ts';
import { readAtOnce } from '../../../drivers/serial/read-at-once.ts';

/** `wake` is what the library does when the port is readable and was asked for; it tells whether it had been. */
function pipedPort(onPiece?: (text: string) => void) {
  const folder = mkdtempSync(join(tmpdir(), 'gaugemark-pipe-'));
  const path = join(folder, 'pipe');
  execFileSync('mkfifo', [path]);
  const fd = openSync(path, constants.O_RDONLY | constants.O_NONBLOCK);
  const far = openSync(path, constants.O_WRONLY);
  onTestFinished(() => {
    closeSync(fd);
    closeSync(far);
    rmSync(folder, { recursive: true, force: true });
  });
  let isAsked = false;
  const poller = Object.assign(new EventEmitter(), {
    poll: () => {
      isAsked = true;
    },
  });
  const port = { isOpen: true, fd, poller };
  const pieces: string[] = [];
  const lost: string[] = [];
  let nowUs = 0;
  const isRead = readAtOnce(port, new LinePace('lf'), () => nowUs, {
    onPiece: (bytes) => {
      const text = Buffer.from(bytes).toString('latin1');
      pieces.push(text);
      onPiece?.(text);
    },
    onLost: (error) => lost.push(error.message),
  });
  return {
    isRead,
    port,
    pieces,
    lost,
    send: (text: string) => writeSync(far, text),
    wait: (us: number) => (nowUs += us),
    wake: (error: Error | null = null): boolean => {
      if (error === null && !isAsked) return false;
      isAsked = false;
      poller.emit('readable', error);
      return true;
    },
  };
}

describe('a port that is read directly', () => {
  it('hands on one line after the other, also where many wait, and asks to be told of more', () => {
    const { isRead, send, wake, pieces, wait } = pipedPort();
    expect(isRead).toBe(true);
    // The first line tells the length.
    send('10\n');
    wake();
    wait(1_000);
    send('11\n12\n13\n');
    // What waits behind the first is told of at once, and then read on.
    while (pieces.filter((piece) => piece.includes('\n')).length < 4) expect(wake()).toBe(true);
    expect(pieces.join('')).toBe('10\n11\n12\n13\n');
    for (const piece of pieces) expect(piece.split('\n').length).toBeLessThanOrEqual(2);
    expect(wake()).toBe(true);
  });

  it('asks again after each line where they come one by one, and loses none', () => {
    const { send, wake, pieces, wait } = pipedPort();
    for (let count = 10; count < 40; count++) {
      send(`${count}\n`);
      expect(wake()).toBe(true);
      wait(1_000);
    }
    wake();
    expect(pieces.join('')).toBe(Array.from({ length: 30 }, (_, i) => `${i + 10}\n`).join(''));
  });

  it('is silent after a close that was asked for, and tells a loss once', () => {
    const closed = pipedPort();
    closed.wake(Object.assign(new Error('Canceled'), { canceled: true }));
    closed.wake(new Error('bad file descriptor'));
    expect(closed.lost).toEqual([]);
    const gone = pipedPort();
    gone.wake(new Error('bad file descriptor'));
    gone.wake(new Error('bad file descriptor'));
    expect(gone.lost).toEqual(['bad file descriptor']);
  });

  it('is let go of by its poller, which the library keeps for good, whether it was closed or lost', () => {
    const closed = pipedPort();
    closed.wake(Object.assign(new Error('Canceled'), { canceled: true }));
    const lost = pipedPort();
    lost.wake(new Error('bad file descriptor'));
    const shut = pipedPort();
    Object.assign(shut.port, { isOpen: false, fd: null });
    shut.wake();
    for (const { port } of [closed, lost, shut]) expect(port.poller.listenerCount('readable')).toBe(0);
  });

  it('reads nothing more once it has been closed in the middle of what waits', () => {
    const { port, send, wake, pieces } = pipedPort((text) => {
      if (text === '11\n') Object.assign(port, { isOpen: false, fd: null });
    });
    send('10\n11\n12\n');
    while (port.isOpen) expect(wake()).toBe(true);
    expect(wake()).toBe(false);
    expect(pieces.join('')).toBe('10\n11\n');
  });

  it('leaves a port of another make to the stream of the library', () => {
    expect(
      readAtOnce({ isOpen: true }, new LinePace('any'), () => 0, {
        onPiece: () => undefined,
        onLost: () => undefined,
      }),
    ).toBe(false);
  });

  it('does not swallow a fault of the program that a line has met (S3)', async () => {
    const told = new Promise<Error>((resolve) => {
      const others = process.listeners('uncaughtException');
      process.removeAllListeners('uncaughtException');
      process.once('uncaughtException', (error) => {
        for (const other of others) process.on('uncaughtException', other);
        resolve(error);
      });
    });
    const { send, wake } = pipedPort(() => {
      throw new Error('a fault in a data handler');
    });
    send('10\n');
    wake();
    expect((await told).message).toBe('a fault in a data handler');
  });
});
