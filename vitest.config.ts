import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/support/global-postgres.ts', 'tests/support/global-proof.ts'],
    // Browsers, servers and killed processes share two cores with each other.
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
