import { defineConfig } from 'vitest/config';

/** For `npm run mutation` alone, which tests a changed copy; every other test goes by the project's own settings. */
export default defineConfig({
  resolve: { conditions: ['source', 'node'] },
  test: { include: ['packages/calc/src/**/*.test.ts'] },
});
