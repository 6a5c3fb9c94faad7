import { defineConfig } from 'vitest/config';

/** Rooms that keep nothing between tests: their files share one load of what they test. */
const PURE = ['engine', 'hearing', 'talk', 'tickets', 'workings'].map(room => `tests/${room}/**/*.test.ts`);

export default defineConfig({
  test: {
    globalSetup: ['tests/support/global-postgres.ts'],
    // Browsers, servers and killed processes share two cores with each other.
    // One worker is the default on two cores, and mostly waits for the processes that it starts.
    maxWorkers: 3,
    testTimeout: 60_000,
    hookTimeout: 60_000,
    projects: [
      { extends: true, test: { name: 'pure', include: PURE, isolate: false } },
      { extends: true, test: { name: 'real', include: ['tests/**/*.test.ts'], exclude: PURE } },
    ],
  },
});
