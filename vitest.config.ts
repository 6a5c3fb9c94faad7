import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/support/global-postgres.ts'],
    // Browsers, servers and killed processes share two cores with each other.
    // One worker is the default on two cores, and mostly waits for the processes that it starts.
    maxWorkers: 3,
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
