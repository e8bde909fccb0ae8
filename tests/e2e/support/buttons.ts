import type { Page } from 'playwright-core';

/** Drawn sizes are rounded to fractions of a point. */
const roundingPx = 1;

/** Buttons and big links whose text does not fit into them, and buttons that reach beyond the glass. */
export async function overflowingButtons(page: Page): Promise<readonly string[]> {
  return page.evaluate((slack) => {
    const found: string[] = [];
    for (const button of document.querySelectorAll<HTMLElement>('button, a.to-sign-in')) {
      if (!button.checkVisibility()) continue;
      const box = button.getBoundingClientRect();
      const range = document.createRange();
      range.selectNodeContents(button);
      const outside = [...range.getClientRects()].some(
        (text) =>
          text.left < box.left - slack ||
          text.right > box.right + slack ||
          text.top < box.top - slack ||
          text.bottom > box.bottom + slack,
      );
      const wider = button.scrollWidth > button.clientWidth + slack;
      const beyond = box.right > document.documentElement.clientWidth + slack;
      if (outside || wider || beyond)
        found.push(`${button.innerText}: ${button.scrollWidth} in ${button.clientWidth} px`);
    }
    return found;
  }, roundingPx);
}
