import { describe, expect, it } from 'vitest';
import type { RecorderLink } from '../../../core/contract/window-requests.ts';
import { RECORDER_RESTARTS_MAX } from '../../../core/limits.ts';
import type { RecorderConnection } from '../../../electron/main/recorder-connection.ts';
import { RecorderSupervisor } from '../../../electron/main/recorder-supervisor.ts';

/** A recorder as seen from outside, and a clock that only moves when somebody waits. */
class World {
  nowMs = 0;
  started = 0;
  /** How many attempts to connect fail after a start, before it answers. */
  slowness = 2;
  answersHeartbeats = true;
  startsAtAll = true;
  diesAtOnce = false;
  killed: number[] = [];
  links: RecorderLink[] = [];
  notes: string[] = [];
  #alive = false;
  #stillStarting = 0;
  #onClosed: (() => void) | null = null;

  runAlready(): void {
    this.#alive = true;
  }

  die(): void {
    this.#alive = false;
    this.#onClosed?.();
    this.#onClosed = null;
  }

  supervisor(): RecorderSupervisor {
    return new RecorderSupervisor('/archive', {
      connect: () => Promise.resolve(this.#connection()),
      start: () => {
        this.started++;
        this.#alive = this.startsAtAll;
        this.#stillStarting = this.slowness;
        return this.diesAtOnce ? Promise.resolve() : new Promise<void>(() => undefined);
      },
      kill: (pid) => {
        this.killed.push(pid);
        this.answersHeartbeats = true;
        this.die();
      },
      nowMs: () => this.nowMs,
      wait: async (ms) => {
        this.nowMs += ms;
        // A turn of the event loop, so that everything else gets its chance.
        await new Promise((resolve) => setImmediate(resolve));
      },
      onLink: (link) => this.links.push(link),
      onEvent: () => undefined,
      note: (what) => this.notes.push(what),
    });
  }

  /** Lets the supervisor work until something holds. */
  async until(holds: () => boolean): Promise<void> {
    for (let turn = 0; turn < 20_000; turn++) {
      if (holds()) return;
      await new Promise((resolve) => setImmediate(resolve));
    }
    throw new Error(`never came: ${holds.toString()}; links ${JSON.stringify(this.links.at(-1))}`);
  }

  #connection(): RecorderConnection | null {
    if (!this.#alive || this.#stillStarting-- > 0) return null;
    return {
      request: (name) =>
        name === 'program.info' && !this.answersHeartbeats
          ? new Promise(() => undefined)
          : Promise.resolve({ ok: true, value: { pid: 4711, name } }),
      onEvent: () => undefined,
      onClosed: (listener) => {
        this.#onClosed = listener;
      },
      close: () => {
        this.#onClosed = null;
      },
    };
  }
}

const state = (world: World): string | undefined => world.links.at(-1)?.state;

describe('keeping a recorder there', () => {
  it('uses one that runs already, so that a window that comes back finds the open pull', async () => {
    const world = new World();
    world.runAlready();
    const supervisor = world.supervisor();
    supervisor.begin();
    await world.until(() => state(world) === 'connected');
    expect(world.started).toBe(0);
    supervisor.end();
  });

  it('starts one where none answers, and waits until it does', async () => {
    const world = new World();
    const supervisor = world.supervisor();
    supervisor.begin();
    await world.until(() => state(world) === 'connected');
    expect(world.started).toBe(1);
    supervisor.end();
  });

  it('hands requests on while connected, and says in words why not otherwise', async () => {
    const world = new World();
    const supervisor = world.supervisor();
    const early = await supervisor.request('session.get', {});
    expect(early.ok ? null : early.fault.code).toBe('recorder-not-connected');
    supervisor.begin();
    await world.until(() => state(world) === 'connected');
    expect((await supervisor.request('session.get', {})).ok).toBe(true);
    supervisor.end();
  });

  it('starts it again when it has died, and counts (P4)', async () => {
    const world = new World();
    const supervisor = world.supervisor();
    supervisor.begin();
    await world.until(() => state(world) === 'connected');
    world.die();
    await world.until(() => state(world) === 'connected' && world.started === 2);
    expect(world.links.at(-1)?.restartCount).toBe(1);
    expect(world.links.some((link) => link.fault?.code === 'recorder-restarting')).toBe(true);
    supervisor.end();
  });

  it('goes over to another archive without a fault: nothing has gone wrong', async () => {
    const world = new World();
    const supervisor = world.supervisor();
    supervisor.begin();
    await world.until(() => state(world) === 'connected');
    const before = world.links.length;
    supervisor.changeArchive('/another');
    await world.until(() => state(world) === 'connected' && world.links.length > before);
    expect(world.links.slice(before).map((link) => [link.state, link.fault])).toEqual([
      ['connecting', null],
      ['connected', null],
    ]);
    supervisor.end();
  });

  it('leaves it alone after too many deaths in a minute, says so, and tries again when a person asks', async () => {
    const world = new World();
    const supervisor = world.supervisor();
    supervisor.begin();
    for (let death = 0; death <= RECORDER_RESTARTS_MAX; death++) {
      await world.until(() => state(world) === 'connected');
      world.die();
    }
    await world.until(() => state(world) === 'failed');
    expect(world.started).toBe(1 + RECORDER_RESTARTS_MAX);
    const answer = await supervisor.request('session.get', {});
    expect(answer.ok ? null : answer.fault.code).toBe('recorder-failed');
    supervisor.begin();
    await world.until(() => state(world) === 'connected');
    supervisor.end();
  });

  it('gives up on one that is started and never answers', async () => {
    const world = new World();
    world.startsAtAll = false;
    const supervisor = world.supervisor();
    supervisor.begin();
    await world.until(() => world.started === 2);
    expect(world.nowMs).toBeGreaterThan(10_000);
    expect(world.notes.join()).toContain('does not answer');
    supervisor.end();
  });

  it('does not wait for one that has died at once, and leaves it alone in the end', async () => {
    const world = new World();
    world.startsAtAll = false;
    world.diesAtOnce = true;
    const supervisor = world.supervisor();
    supervisor.begin();
    await world.until(() => state(world) === 'failed');
    expect(world.nowMs).toBeLessThan(10_000);
    expect(world.started).toBe(1 + RECORDER_RESTARTS_MAX);
    supervisor.end();
  });

  it('ends one that hangs, by the number it gave when it answered, and starts another (P4)', async () => {
    const world = new World();
    const supervisor = world.supervisor();
    supervisor.begin();
    await world.until(() => state(world) === 'connected' && world.nowMs > 5_000);
    world.answersHeartbeats = false;
    await world.until(() => world.killed.length === 1 && state(world) === 'connected');
    expect(world.killed).toEqual([4711]);
    expect(world.started).toBe(2);
    supervisor.end();
  });

  it('does not come back to an archive that was left', async () => {
    const world = new World();
    const supervisor = world.supervisor();
    supervisor.begin();
    await world.until(() => state(world) === 'connected');
    supervisor.end();
    world.die();
    const started = world.started;
    for (let turn = 0; turn < 100; turn++) await new Promise((resolve) => setImmediate(resolve));
    expect(world.started).toBe(started);
  });
});
