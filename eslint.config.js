import { defineConfig } from 'eslint/config';
import globals from 'globals';
import svelte from 'eslint-plugin-svelte';
import tseslint from 'typescript-eslint';

const code = ['**/*.ts', '**/*.svelte'];
const tests = ['**/*.test.ts', 'tests/**/*.ts'];
const plainScripts = ['**/*.js', '**/*.mjs', '*.ts', '*/*.config.ts', 'apps/*/*.ts'];

const calcForbids = 'packages/calc is pure: time, seeds and surroundings come in as arguments.';

export default defineConfig(
  {
    ignores: [
      '**/node_modules/',
      '**/dist/',
      '**/build/',
      '**/.svelte-kit/',
      '**/generated/',
      'apps/web/src/lib/paraglide/',
      '.cache/',
      'coverage/',
      'data/',
    ],
  },
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  ...tseslint.configs.recommended,
  ...svelte.configs.recommended,
  {
    files: code,
    ignores: plainScripts,
    languageOptions: {
      parserOptions: {
        projectService: true,
        tsconfigRootDir: import.meta.dirname,
        extraFileExtensions: ['.svelte'],
      },
    },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': 'error',
      '@typescript-eslint/promise-function-async': 'error',
      '@typescript-eslint/return-await': ['error', 'in-try-catch'],
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      '@typescript-eslint/await-thenable': 'error',
      '@typescript-eslint/no-unnecessary-type-assertion': 'error',
      '@typescript-eslint/only-throw-error': 'error',
      '@typescript-eslint/restrict-template-expressions': [
        'error',
        { allowNumber: true, allowBoolean: true },
      ],
      '@typescript-eslint/consistent-type-imports': 'error',
    },
  },
  {
    rules: {
      // Naming a property beside `...rest` is how it is left out.
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', ignoreRestSiblings: true },
      ],
      eqeqeq: 'error',
      'no-var': 'error',
      'prefer-const': 'error',
      'max-lines': ['error', { max: 400 }],
    },
  },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    rules: {
      // The props of a component come in one pattern, of which only some may be bound.
      'prefer-const': 'off',
      'svelte/prefer-const': 'error',
      // The screens are served from the root of their own origin: there is no base path to resolve.
      'svelte/no-navigation-without-resolve': 'off',
    },
  },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { globals: globals.browser, parserOptions: { parser: tseslint.parser } },
    rules: {
      'svelte/no-unused-props': 'error',
      'svelte/button-has-type': 'error',
      'svelte/no-at-html-tags': 'error',
      'prefer-const': 'off',
      'svelte/prefer-const': ['error', { excludedRunes: ['$props', '$state', '$derived'] }],
      // The tool is always served from the top of its address, so a path is an address already.
      'svelte/no-navigation-without-resolve': 'off',
    },
  },
  {
    files: [...code, '**/*.js', '**/*.mjs'],
    ignores: tests,
    rules: { 'max-lines-per-function': ['error', { max: 80 }] },
  },
  {
    files: ['**/*.js', '**/*.mjs'],
    languageOptions: { globals: globals.node },
  },
  {
    files: ['apps/*/src/**', 'packages/*/src/**'],
    rules: { 'no-console': 'error' },
  },
  {
    files: ['packages/calc/src/**/*.ts'],
    ignores: [...tests, 'packages/calc/src/testing/**'],
    rules: {
      'no-restricted-globals': [
        'error',
        ...['Date', 'process', 'globalThis', 'setTimeout', 'setInterval', 'setImmediate'].map(
          (name) => ({ name, message: calcForbids }),
        ),
        ...['queueMicrotask', 'performance', 'crypto', 'fetch', 'Buffer', 'console'].map(
          (name) => ({ name, message: calcForbids }),
        ),
      ],
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: calcForbids },
      ],
      'no-restricted-imports': [
        'error',
        { patterns: [{ regex: '^(?!\\.)', message: calcForbids }] },
      ],
    },
  },
);
