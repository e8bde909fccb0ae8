import type { Content, TDocumentDefinitions } from 'pdfmake/interfaces.js';
import { typed } from './blocks.js';
import { ink, soft } from './colours.js';

/** One document for the printer, before the frame that all of them share. */
export interface Sheet {
  readonly title: string;
  /** What the sheet is about, with its number. */
  readonly subject: string;
  readonly revision: string | null;
  /** Stands large on every page of a sheet that nobody may weld by. */
  readonly mark: string | null;
  readonly content: readonly Content[];
  /** Adds what protects people, where work is shown. */
  readonly showsWork: boolean;
}

export interface Printing {
  readonly shopName: string;
  /** On the clock of the shop, in words. */
  readonly printedAt: string;
  readonly printedBy: string;
}

const decides =
  'The governing code, the signed record and the responsible welding coordinator decide.';

const cautions = [
  'Before the arc: fume extraction on, and breathing protection where it is not enough; screens against ultraviolet light; shock from the welding circuit, keep dry and insulated; metal stays hot after the weld.',
  'Robot cell: nobody inside while it runs; teaching only by the trained person in sole control. This sheet starts and stops no machine.',
];

const margin = 40;

/** The sheet with shop, title, revision, page count and the line that defers, on A4. */
export function documentOf(sheet: Sheet, printing: Printing): TDocumentDefinitions {
  const { title, subject, mark } = sheet;
  const shopName = printing.shopName === '' ? 'Shop name not set' : printing.shopName;
  return {
    pageSize: 'A4',
    pageMargins: [margin, 72, margin, 62],
    info: { title: `${title} ${subject}`, creator: 'Tackboard' },
    defaultStyle: { font: 'Roboto', fontSize: 9.5, color: ink, lineHeight: 1.15 },
    ...(mark === null
      ? {}
      : { watermark: { text: mark.split(',')[0] ?? mark, opacity: 0.12, bold: true } }),
    // A heading stays with what it stands over.
    pageBreakBefore: (node, nodes) =>
      node.headlineLevel === 1 && nodes.getFollowingNodesOnPage().length === 0,
    header: headerOf(shopName, sheet),
    footer: (page: number, pages: number) => footerOf(printing, { page, pages }),
    content: [
      { ...typed(subject), fontSize: 18, bold: true, margin: [0, 0, 0, 2] },
      ...(mark === null ? [] : [markBlock(mark)]),
      ...sheet.content,
      ...(sheet.showsWork ? cautions.map(caution) : []),
      { text: decides, bold: true, margin: [0, 8, 0, 0] },
    ],
  };
}

function headerOf(shopName: string, { title, revision }: Sheet): Content {
  const line = (text: string, alignment: 'left' | 'center' | 'right', bold = false): Content => ({
    ...typed(text),
    ...{ alignment, bold, width: '*', fontSize: 10 },
  });
  return {
    margin: [margin, 26, margin, 0],
    stack: [
      {
        columnGap: 12,
        columns: [
          line(shopName, 'left'),
          line(title, 'center', true),
          line(revision === null ? '' : `Rev. ${revision}`, 'right', true),
        ],
      },
      rule(),
    ],
  };
}

function footerOf(
  { printedAt, printedBy }: Printing,
  { page, pages }: { page: number; pages: number },
): Content {
  return {
    margin: [margin, 10, margin, 0],
    fontSize: 8,
    color: soft,
    stack: [
      rule(),
      { text: decides },
      {
        columnGap: 12,
        columns: [
          {
            ...typed(
              `Printed ${printedAt} by ${printedBy}. Paper is not kept up to date: look in the tool whether it still holds.`,
            ),
            width: '*',
          },
          { text: `Page ${page} of ${pages}`, alignment: 'right', width: 70 },
        ],
      },
    ],
  };
}

function rule(): Content {
  return {
    canvas: [{ type: 'line', x1: 0, y1: 3, x2: 515, y2: 3, lineWidth: 0.7, lineColor: soft }],
  };
}

function markBlock(mark: string): Content {
  return {
    table: {
      widths: ['*'],
      body: [[{ text: mark, fontSize: 20, bold: true, alignment: 'center' }]],
    },
    margin: [0, 4, 0, 8],
  };
}

function caution(text: string): Content {
  return { text, fontSize: 8.5, margin: [0, 6, 0, 0] };
}
