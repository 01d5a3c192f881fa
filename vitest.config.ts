import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    projects: [
      { test: { name: 'unit', include: ['tests/unit/**/*.test.ts'], testTimeout: 30_000 } },
      { test: { name: 'published', include: ['tests/published/**/*.test.ts'], testTimeout: 60_000 } },
      {
        test: {
          name: 'app',
          include: ['tests/app/**/*.test.ts'],
          globalSetup: ['tests/app/support/global-setup.ts'],
          testTimeout: 180_000,
          hookTimeout: 120_000,
          // Real windows and ports: one after the other, so that they don't starve each other on two cores.
          fileParallelism: false,
        },
      },
    ],
  },
});
