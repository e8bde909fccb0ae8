import { defineConfig } from 'vitest/config';

const conditions = ['source', 'node'];

function project(name: string, include: string[], globalSetup: string[] = []) {
  return {
    resolve: { conditions },
    ssr: { resolve: { conditions } },
    test: {
      name,
      include,
      globalSetup,
      testTimeout: 60_000,
      hookTimeout: 120_000,
      // A board that repaints on a busy machine takes longer than the second that is the default.
      expect: { poll: { timeout: 20_000 } },
    },
  };
}

export default defineConfig({
  test: {
    projects: [
      project('calc', ['packages/calc/src/**/*.test.ts']),
      project('contract', ['packages/contract/src/**/*.test.ts']),
      project('api', ['apps/api/src/**/*.test.ts', 'tests/api/**/*.test.ts']),
      project('flows', ['tests/flows/**/*.test.ts', 'tests/races/**/*.test.ts']),
      project('web', ['apps/web/src/**/*.test.ts']),
      project('arch', ['tests/arch/**/*.test.ts']),
      project('e2e', ['tests/e2e/**/*.test.ts'], ['tests/e2e/support/demo-shop.ts']),
    ],
  },
});
