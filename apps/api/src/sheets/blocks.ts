import type { Content, ContentText, TableCell } from 'pdfmake/interfaces.js';
import { band, line, soft } from './colours.js';
import { notStated } from './words.js';

/** A word longer than this does not fit a column, so its line is broken wherever it ends. */
const longestWord = 24;

/** Text that people typed, printed as typed; it wraps even where nobody set a space. */
export function typed(text: string): ContentText {
  const long = text.split(/\s/).some((word) => word.length > longestWord);
  return long ? { text, wordBreak: 'break-all' } : { text };
}

export type Fact = readonly [name: string, value: string | null | undefined];

/** One name and its value; what is not on file says so instead of leaving a gap. */
export function fact([name, value]: Fact): Content {
  const known = value === null || value === undefined || value === '' ? null : value;
  return {
    columnGap: 6,
    margin: [0, 1, 0, 1],
    columns: [
      { ...typed(name), width: 118, color: soft },
      known === null
        ? { text: notStated, width: '*', color: soft, italics: true }
        : { ...typed(known), width: '*', bold: true },
    ],
  };
}

/** A heading of the sheet with what stands under it. */
export type Section = readonly [heading: string, content: readonly Content[]];

/** Numbered headings to the left, in their order, and their content beside them. */
export function sections(rows: readonly Section[]): Content {
  return {
    margin: [0, 6, 0, 0],
    layout: quietLayout,
    table: {
      widths: [104, '*'],
      body: rows.map(([heading, content], at): TableCell[] => [
        { text: `${at + 1}  ${heading}`, bold: true },
        { stack: [...content] },
      ]),
    },
  };
}

export function heading(text: string): Content {
  return { ...typed(text), fontSize: 12, bold: true, margin: [0, 10, 0, 3], headlineLevel: 1 };
}

export function paragraph(text: string): Content {
  return { ...typed(text), margin: [0, 2, 0, 2] };
}

/** A table with a head that is repeated on every page; a cell is text or made already. */
export function table(
  columns: readonly { readonly title: string; readonly width: number | '*' }[],
  rows: readonly (readonly (string | Content)[])[],
): Content {
  return {
    layout: quietLayout,
    table: {
      headerRows: 1,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      widths: columns.map(({ width }) => width),
      body: [
        columns.map(({ title }) => ({ text: title, bold: true, fillColor: band })),
        ...rows.map((row) => row.map((cell) => (typeof cell === 'string' ? typed(cell) : cell))),
      ],
    },
  };
}

const quietLayout = {
  hLineWidth: () => 0.6,
  vLineWidth: () => 0,
  hLineColor: () => line,
  paddingTop: () => 3,
  paddingBottom: () => 3,
};
