/** A start of a program without a driver: nothing attaches to it, it is only watched, the same way whichever it is. */
import { spawn } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { isRoot } from '../../../electron/setup/places.mjs';
import { killAndWait } from '../../app/support/processes.ts';
import { until } from '../../app/support/until.ts';
import { electronPath } from '../../app/support/small-page.ts';

const OBSERVER = new URL('start-observer.cjs', import.meta.url).pathname;
/** What is made of a script for the next start is written when a program ends by itself. */
const END_MS_MAX = 10_000;

const moments = z.object({
  'first-contentful-paint': z.number(),
  drawn: z.number(),
  heard: z.number(),
  answered: z.number(),
});

/** Milliseconds from the start of the process. */
export interface ObservedStart {
  /** The first picture of anything is on the screen, as the engine notes it. */
  readonly pictureMs: number;
  /** The first view stands there in a frame that has been drawn. */
  readonly viewMs: number;
  /** And a movement of the pointer has been heard in it. */
  readonly heardMs: number;
  /** And the program's recorder has answered. */
  readonly usableMs: number;
}

export interface StartOptions {
  readonly folder: string;
  readonly settings: string;
  /** The program's folder, and what it is told. */
  readonly args: readonly string[];
  /** Selects what the first view has. */
  readonly shown: string;
}

export async function observedStart({ folder, settings, args, shown }: StartOptions): Promise<ObservedStart> {
  const place = join(folder, 'observed.json');
  rmSync(place, { force: true });
  const from = performance.timeOrigin + performance.now();
  const child = spawn(
    electronPath(),
    ['-r', OBSERVER, `--user-data-dir=${settings}`, ...(isRoot ? ['--no-sandbox'] : []), ...args],
    { stdio: 'ignore', env: { ...process.env, START_OBSERVED_IN: place, START_SHOWN: shown } },
  );
  const withUs = (): void => void child.kill('SIGKILL');
  process.once('exit', withUs);
  await until(() => existsSync(place), 'the page is there and answers');
  const seen = moments.parse(JSON.parse(readFileSync(place, 'utf8')));
  child.kill('SIGTERM');
  const hasEnded = (): boolean => child.exitCode !== null || child.signalCode !== null;
  await until(hasEnded, 'the program ends', END_MS_MAX).catch(() => killAndWait(child.pid ?? 0));
  process.off('exit', withUs);
  return {
    pictureMs: seen['first-contentful-paint'] - from,
    viewMs: seen.drawn - from,
    heardMs: Math.max(seen.drawn, seen.heard) - from,
    usableMs: Math.max(seen.drawn, seen.heard, seen.answered) - from,
  };
}
