import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { displaysIn } from './tests/app/support/displays.ts';
import { LongestFirst } from './tests/app/support/longest-first.ts';

/** What opens a real window. */
const WINDOW_TESTS = ['tests/app/window-*.test.ts', 'tests/app/*-pdf.test.ts'];

/** One for each window that may be open at a time, see own-display.ts. */
const DISPLAYS = displaysIn(process.env);
const WINDOW = {
  globalSetup: ['tests/app/support/global-setup.ts'],
  setupFiles: ['tests/app/support/own-display.ts'],
  isolate: false,
  include: WINDOW_TESTS,
  maxWorkers: Math.max(1, DISPLAYS.length),
  testTimeout: 300_000,
  hookTimeout: 120_000,
  // What a page shows a moment later: on a busy machine that is seconds.
  expect: { poll: { timeout: 30_000 } },
};

/** What the command line keeps for the person who types is not kept for whoever runs the tests. */
const NOBODY = { XDG_DATA_HOME: join(tmpdir(), 'gaugemark-test-data') };

/** Threads and recorders run as they are bundled: from source each start costs most of a second. */
const BUNDLED = {
  globalSetup: ['tests/app/support/build-once.ts'],
  alias: [
    {
      find: /^\.\/thread-file\.ts$/,
      replacement: fileURLToPath(new URL('tests/app/support/bundled-threads.ts', import.meta.url)),
    },
  ],
};

export default defineConfig({
  test: {
    sequence: { sequencer: LongestFirst },
    // Several named at once run one after the other, since they differ in how many files run at a time.
    projects: [
      {
        test: {
          ...BUNDLED,
          name: 'unit',
          sequence: { groupOrder: 0 },
          env: NOBODY,
          // Two hundred files that share what they import: read once a worker. What a test sets it sets back.
          isolate: false,
          include: ['tests/unit/**/*.test.ts'],
          // Many wait for a disk that has to be sure: one more than the cores there are.
          maxWorkers: availableParallelism() + 1,
          testTimeout: 90_000,
          hookTimeout: 90_000,
        },
      },
      {
        test: {
          ...BUNDLED,
          name: 'published',
          sequence: { groupOrder: 1 },
          // As the unit tests: they share what they import.
          isolate: false,
          include: ['tests/published/**/*.test.ts'],
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
      // Real ports and processes without a window. They wait for paced readouts two thirds of the time, so four files at
      // once don't starve each other on two cores.
      {
        test: {
          ...BUNDLED,
          globalSetup: [...BUNDLED.globalSetup, 'tests/app/support/bundled-command-line.ts'],
          name: 'port',
          sequence: { groupOrder: 2 },
          env: NOBODY,
          isolate: false,
          include: ['tests/app/**/*.test.ts'],
          exclude: WINDOW_TESTS,
          maxWorkers: 4,
          testTimeout: 180_000,
          hookTimeout: 120_000,
        },
      },
      { test: { ...WINDOW, name: 'window', sequence: { groupOrder: 3 } } },
    ],
  },
});
