import { describe, expect, it } from 'vitest';
import { withoutInlineScripts } from '../adapter/static-without-inline-script.js';

/** `script-src 'self'` lets no inline script run: Content Security Policy Level 3, section 6.7.3.3, from memory. */
describe('withoutInlineScripts', () => {
  const page =
    '<head><script src="/theme.js"></script></head><body><script>\n start("/");\n</script></body>';

  it('moves the inline script into a file named after its content', () => {
    const { html, files } = withoutInlineScripts(page);
    expect(files).toHaveLength(1);
    expect(files[0]?.content).toBe('\n start("/");\n');
    expect(html).toBe(
      `<head><script src="/theme.js"></script></head><body><script src="/${files[0]?.path}"></script></body>`,
    );
  });
  it('gives other content another name', () => {
    const other = withoutInlineScripts(page.replace('"/"', '"/x"'));
    expect(other.files[0]?.path).not.toBe(withoutInlineScripts(page).files[0]?.path);
  });
});
