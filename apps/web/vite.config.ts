import { paraglideVitePlugin } from '@inlang/paraglide-js';
import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vite';
import { textsOnDemand } from './adapter/texts-on-demand.js';

const apiAddress = process.env['TACKBOARD_API'] ?? 'http://127.0.0.1:8080';

/** The server takes writes only from its own origin, so the address that the browser asked for is passed on. */
const proxy = { '/api': { target: apiAddress, changeOrigin: false } };

export default defineConfig({
  plugins: [
    paraglideVitePlugin({
      project: './project.inlang',
      outdir: './src/lib/paraglide',
      strategy: ['baseLocale'],
      outputStructure: 'locale-modules',
      emitReadme: false,
    }),
    textsOnDemand(),
    sveltekit(),
  ],
  server: { proxy, fs: { allow: ['../../docs'] } },
  preview: { proxy },
});
