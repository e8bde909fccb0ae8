import { vitePreprocess } from '@sveltejs/vite-plugin-svelte';
import { staticWithoutInlineScript } from './adapter/static-without-inline-script.js';

/** @type {import('@sveltejs/kit').Config} */
export default {
  preprocess: vitePreprocess(),
  kit: {
    adapter: staticWithoutInlineScript({ pages: 'build', fallback: 'index.html' }),
    paths: { relative: false },
    // By address, not by the export condition "source": a package behind the dialogs has one of its own.
    alias: {
      '@tackboard/contract': '../../packages/contract/src/index.ts',
      '@tackboard/calc': '../../packages/calc/src/index.ts',
    },
  },
};
