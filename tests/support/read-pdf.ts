import jsQR from 'jsqr';
import { getDocument, OPS, type PDFPageProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';

interface Square {
  readonly x: number;
  readonly y: number;
  readonly size: number;
}

interface ReadPage {
  /** In the order in which it was drawn, with single spaces. */
  readonly text: string;
  /** Where the level text that reaches furthest ends, as a share of the page's width. */
  readonly rightmost: number;
  /** How many lines and areas are drawn. */
  readonly paths: number;
  /** How many pictures made of dots. */
  readonly images: number;
  readonly squares: readonly Square[];
}

interface ReadPdf {
  readonly pages: readonly ReadPage[];
  readonly text: string;
}

/** What a reader made elsewhere finds in a PDF file. */
export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const task = getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  const document = await task.promise;
  const pages: ReadPage[] = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    pages.push({ ...(await textOf(page)), ...(await drawnOn(page)) });
  }
  await task.destroy();
  return { pages, text: pages.map(({ text }) => text).join(' ') };
}

async function textOf(page: PDFPageProxy) {
  const { items } = await page.getTextContent();
  const runs = items.flatMap((item) => ('str' in item ? [item] : []));
  const text = runs.map(({ str, hasEOL }) => str + (hasEOL ? ' ' : '')).join('');
  // The mark across a page stands at an angle and is as wide as the paper.
  const level = runs.filter(({ transform }) => transform[1] === 0);
  const ends = level.map(({ transform, width }) => Number(transform[4]) + width);
  const { width } = page.getViewport({ scale: 1 });
  return { text: text.replace(/\s+/g, ' '), rightmost: Math.max(0, ...ends) / width };
}

async function drawnOn(page: PDFPageProxy) {
  const { fnArray, argsArray } = await page.getOperatorList();
  const paths = argsArray.filter((_, at) => fnArray[at] === OPS.constructPath) as [
    number[],
    number[],
  ][];
  const rectangles = paths
    .filter(([operators]) => operators.length === 1 && operators[0] === OPS.rectangle)
    .map(([, [x = 0, y = 0, width = 0, height = 0]]) => ({ x, y, width, height }));
  return {
    paths: paths.length,
    images: fnArray.filter((operator) => operator === OPS.paintImageXObject).length,
    squares: rectangles
      .filter(({ width, height }) => Math.abs(width - height) < 1e-6)
      .map(({ x, y, width }) => ({ x, y, size: width })),
  };
}

const dotsPerModule = 4;
/** The free edge that ISO/IEC 18004 asks around a code, in modules. */
const quietModules = 4;

/** What a scanner made elsewhere reads from the dark squares of a printed code; null where it reads nothing. */
export function scanned(squares: readonly Square[]): string | null {
  const size = Math.min(...squares.map((square) => square.size));
  const dark = squares.filter((square) => Math.abs(square.size - size) < 1e-6);
  const [left, top] = [Math.min(...dark.map(({ x }) => x)), Math.min(...dark.map(({ y }) => y))];
  const cells = dark.map(({ x, y }) => [
    Math.round((x - left) / size),
    Math.round((y - top) / size),
  ]);
  const modules = Math.max(...cells.flat()) + 1 + 2 * quietModules;
  const width = modules * dotsPerModule;
  const picture = new Uint8ClampedArray(width * width * 4).fill(255);
  for (const [column = 0, row = 0] of cells)
    for (let dot = 0; dot < dotsPerModule ** 2; dot += 1) {
      const x = (column + quietModules) * dotsPerModule + (dot % dotsPerModule);
      const y = (row + quietModules) * dotsPerModule + Math.floor(dot / dotsPerModule);
      picture.fill(0, (y * width + x) * 4, (y * width + x) * 4 + 3);
    }
  return jsQR.default(picture, width, width)?.data ?? null;
}
