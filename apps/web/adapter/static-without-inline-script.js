import { createHash } from 'node:crypto';
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import adapterStatic from '@sveltejs/adapter-static';

const inlineScript = /<script>([\s\S]*?)<\/script>/g;

/**
 * The static adapter, plus one step: the content policy of the server allows no inline script,
 * so the start script is moved into a file named after its content.
 *
 * @param {{ pages: string; fallback: string }} options
 * @returns {import('@sveltejs/kit').Adapter}
 */
export function staticWithoutInlineScript(options) {
  const inner = adapterStatic(options);
  return {
    name: 'static-without-inline-script',
    async adapt(builder) {
      await inner.adapt(builder);
      const pagePath = path.join(options.pages, options.fallback);
      const page = await readFile(pagePath, 'utf8');
      const { html, files } = withoutInlineScripts(page);
      for (const file of files) await writeFile(path.join(options.pages, file.path), file.content);
      await writeFile(pagePath, html);
    },
  };
}

/**
 * @param {string} page
 * @returns {{ html: string; files: { path: string; content: string }[] }}
 */
export function withoutInlineScripts(page) {
  /** @type {{ path: string; content: string }[]} */
  const files = [];
  const html = page.replace(inlineScript, (_whole, /** @type {string} */ content) => {
    const hash = createHash('sha256').update(content).digest('hex').slice(0, 12);
    const file = { path: `_app/immutable/start.${hash}.js`, content };
    files.push(file);
    // A classic script: the start code looks for its own element, which a module has none of.
    return `<script src="/${file.path}"></script>`;
  });
  return { html, files };
}
