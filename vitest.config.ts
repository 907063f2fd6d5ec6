import { defineConfig } from 'vitest/config';

/** Tests that put something else in a module's place: each has its own modules. The others share theirs, which saves a quarter of the time. */
const REPLACING = ['tests/cli/faults.test.ts'];

export default defineConfig({
  test: {
    testTimeout: 60_000,
    maxWorkers: 2,
    // Two workers on two cores: threads that compile and collect garbage beside them cost more than they save.
    execArgv: ['--max-semi-space-size=64', '--single-threaded'],
    projects: [
      {
        extends: true,
        test: { name: 'shared', include: ['tests/**/*.test.{ts,tsx}'], exclude: REPLACING, isolate: false },
      },
      { extends: true, test: { name: 'apart', include: REPLACING } },
    ],
  },
});
