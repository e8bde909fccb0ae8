import { paraglideVitePlugin } from '@inlang/paraglide-js';
import { sveltekit } from '@sveltejs/kit/vite';
import { defineConfig } from 'vite';

const apiAddress = process.env['TACKBOARD_API'] ?? 'http://127.0.0.1:8080';

export default defineConfig({
  plugins: [
    paraglideVitePlugin({
      project: './project.inlang',
      outdir: './src/lib/paraglide',
      strategy: ['localStorage', 'baseLocale'],
      outputStructure: 'locale-modules',
      emitReadme: false,
    }),
    sveltekit(),
  ],
  server: { proxy: { '/api': apiAddress } },
  preview: { proxy: { '/api': apiAddress } },
});
