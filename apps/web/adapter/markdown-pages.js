import { Marked } from 'marked';

const allowedTag = /^<\/?(sub|sup|br|strong|em)>$/;
const letScroll = '<!-- svelte-ignore a11y_no_noninteractive_tabindex -->';
const methodFolder = /\/docs\/(method\/)?[\w-]+\.md$/;
/** Where the code stands is for developers; the screens show the rest of the sentence's paragraph. */
const codePlace = /\s*\bCode:\s+(`[^`]+`(,\s+|\s+and\s+)?)+(; [^.]*)?\.?/g;

/** Text as a component's markup takes it: neither a tag nor an expression can begin in it. */
function plain(text) {
  const entities = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
  return text
    .replace(/[&<>"]/g, (sign) => entities[sign])
    .replace(/[{}]/g, (sign) => `&#${sign.charCodeAt(0)};`);
}

/** The screen's address of a page that another one links to; null where the screens have none. */
function addressOf(href) {
  if (/^https:\/\//.test(href)) return href;
  const [, name] = /^(?:\.\.\/|method\/)?([\w-]+)\.md(?:#.*)?$/.exec(href) ?? [];
  if (name === undefined) return null;
  return name === 'README' ? '/method' : `/method/${name}`;
}

const renderer = {
  html: ({ text }) => (allowedTag.test(text) ? text : plain(text)),
  text(token) {
    return token.tokens ? this.parser.parseInline(token.tokens) : plain(unescaped(token.text));
  },
  codespan: ({ text }) => `<code>${plain(text)}</code>`,
  code: ({ text }) => `<pre><code>${plain(text)}</code></pre>\n`,
  image: ({ text }) => plain(text),
  link({ href, tokens }) {
    const words = this.parser.parseInline(tokens);
    const address = addressOf(href);
    return address === null ? words : `<a href="${plain(address)}">${words}</a>`;
  },
  table({ header, rows }) {
    const cells = (row, tag) =>
      row.map(({ tokens }) => `<${tag}>${this.parser.parseInline(tokens)}</${tag}>`).join('');
    const head = `<thead><tr>${cells(header, 'th')}</tr></thead>`;
    const body = rows.map((row) => `<tr>${cells(row, 'td')}</tr>`).join('');
    const name = plain(header.map(({ text }) => text.replace(/<[^>]*>/g, '')).join(', '));
    // A wide table must scroll by keyboard too.
    const scrolled = `<div class="wide" tabindex="0" role="region" aria-label="${name}">`;
    return `${letScroll}${scrolled}<table>${head}<tbody>${body}</tbody></table></div>\n`;
  },
};

/** The lexer hands out text with the five entities written; they are written anew, together with the braces. */
function unescaped(text) {
  const signs = { '&amp;': '&', '&lt;': '<', '&gt;': '>', '&quot;': '"', '&#39;': "'" };
  return text.replace(/&(amp|lt|gt|quot|#39);/g, (entity) => signs[entity]);
}

const marked = new Marked({ renderer, gfm: true });

/**
 * A page of Markdown as a component's markup, made when the screens are built: text, tables and links, no script,
 * no style, no picture and no tag of the author's but sub- and superscripts.
 *
 * @param {string} text
 * @returns {string}
 */
export function markdownMarkup(text) {
  return String(marked.parse(text.replace(codePlace, ''), { async: false }));
}

/** Makes components of the pages that explain the figures; every other file is left as it is. */
export function markdownPages() {
  return {
    name: 'markdown-pages',
    /** @param {{ content: string, filename?: string }} file */
    markup: ({ content, filename }) =>
      methodFolder.test((filename ?? '').replaceAll('\\', '/'))
        ? { code: markdownMarkup(content) }
        : undefined,
  };
}
