import { getDocument, OPS, type PDFPageProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';

export interface ReadPdf {
  readonly pages: readonly {
    /** In the order in which it was drawn, with single spaces. */
    readonly text: string;
    /** How many lines and areas are drawn. */
    readonly paths: number;
  }[];
  readonly text: string;
}

/** What a reader made elsewhere finds in a PDF file. */
export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  const document = await task.promise;
  const pages = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    pages.push({ text: await textOf(page), paths: await pathsOf(page) });
  }
  await task.destroy();
  return { pages, text: pages.map(({ text }) => text).join(' ') };
}

async function textOf(page: PDFPageProxy): Promise<string> {
  const { items } = await page.getTextContent();
  const parts = items.map((item) => ('str' in item ? item.str + (item.hasEOL ? ' ' : '') : ''));
  return parts.join('').replace(/\s+/g, ' ');
}

async function pathsOf(page: PDFPageProxy): Promise<number> {
  const { fnArray } = await page.getOperatorList();
  return fnArray.filter((operator) => operator === OPS.constructPath).length;
}
