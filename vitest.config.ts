import { defineConfig } from 'vitest/config';

/** What opens a real window. */
const WINDOW_TESTS = ['tests/app/window-*.test.ts', 'tests/app/certificate-pdf.test.ts'];

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/unit/**/*.test.ts'],
          // Left to itself, vitest keeps one core free, and half of a machine of two cores waits.
          maxWorkers: '100%',
          testTimeout: 90_000,
        },
      },
      { test: { name: 'published', include: ['tests/published/**/*.test.ts'], testTimeout: 60_000 } },
      // Real ports and processes without a window. They wait for paced readouts most of the time, so two files at once
      // don't starve each other on two cores.
      {
        test: {
          name: 'port',
          include: ['tests/app/**/*.test.ts'],
          exclude: WINDOW_TESTS,
          maxWorkers: 2,
          testTimeout: 180_000,
          hookTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'window',
          include: WINDOW_TESTS,
          globalSetup: ['tests/app/support/global-setup.ts'],
          testTimeout: 180_000,
          hookTimeout: 120_000,
          // Real windows: one after the other, so that none has to wait for another's drawing.
          fileParallelism: false,
        },
      },
    ],
  },
});
