import { vitePreprocess } from '@sveltejs/vite-plugin-svelte';
import { markdownPages } from './adapter/markdown-pages.js';
import { staticWithoutInlineScript } from './adapter/static-without-inline-script.js';

/** @type {import('@sveltejs/kit').Config} */
export default {
  // The pages that explain the figures are documents; the screens show them as components.
  extensions: ['.svelte', '.md'],
  preprocess: [markdownPages(), vitePreprocess()],
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
