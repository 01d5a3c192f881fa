import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/**
 * Run beside the other windows: pages and recorders that are killed or left, which wait for restarts most of the time, and
 * what no readout paces.
 */
const BESIDE_TESTS = [
  'tests/app/window-*killed.test.ts',
  'tests/app/window-graphics.test.ts',
  'tests/app/window-leaving.test.ts',
  'tests/app/window-looked-over.test.ts',
  'tests/app/window-exchange.test.ts',
  'tests/app/window-export.test.ts',
  'tests/app/window-archive.test.ts',
  'tests/app/window-camera.test.ts',
  'tests/app/window-opened-values.test.ts',
  'tests/app/window-own-rules.test.ts',
  'tests/app/window-damaged-archive.test.ts',
  'tests/app/window-people.test.ts',
  'tests/app/window-many-pulls.test.ts',
  'tests/app/*-pdf.test.ts',
];
/** What opens a real window. */
const WINDOW_TESTS = ['tests/app/window-*.test.ts', 'tests/app/*-pdf.test.ts'];

const WINDOW = {
  globalSetup: ['tests/app/support/global-setup.ts'],
  testTimeout: 180_000,
  hookTimeout: 120_000,
  // What a page shows a moment later: on a busy machine that is seconds.
  expect: { poll: { timeout: 30_000 } },
  // Real windows: one after the other, so that none has to wait for another's drawing.
  fileParallelism: false,
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
    projects: [
      {
        test: {
          ...BUNDLED,
          name: 'unit',
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
          env: NOBODY,
          include: ['tests/app/**/*.test.ts'],
          exclude: WINDOW_TESTS,
          maxWorkers: 4,
          testTimeout: 180_000,
          hookTimeout: 120_000,
        },
      },
      { test: { ...WINDOW, name: 'window', include: WINDOW_TESTS, exclude: BESIDE_TESTS } },
      { test: { ...WINDOW, name: 'window-beside', include: BESIDE_TESTS } },
    ],
  },
});
