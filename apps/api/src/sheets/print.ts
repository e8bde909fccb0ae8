import { createRequire } from 'node:module';
import path from 'node:path';
import type pdfmakeLibrary from 'pdfmake';
import type { TDocumentDefinitions } from 'pdfmake/interfaces.js';

// The typeface lies in the library's own folder: it has the letters of every European language, and nothing is fetched.
const library = path.dirname(createRequire(import.meta.url).resolve('pdfmake/package.json'));
const fontFolder = path.join(library, 'fonts', 'Roboto');
const file = (name: string) => path.join(fontFolder, name);

type Printer = typeof pdfmakeLibrary;
let printer: Promise<Printer> | null = null;

/** The library and its letters take some twenty megabytes: they come with the first sheet, not with the service. */
async function loaded(): Promise<Printer> {
  const { default: pdfmake } = await import('pdfmake');
  pdfmake.setFonts({
    Roboto: {
      normal: file('Roboto-Regular.ttf'),
      bold: file('Roboto-Medium.ttf'),
      italics: file('Roboto-Italic.ttf'),
      bolditalics: file('Roboto-MediumItalic.ttf'),
    },
  });
  pdfmake.setUrlAccessPolicy(() => false);
  pdfmake.setLocalAccessPolicy((name) => path.dirname(name) === fontFolder);
  return pdfmake;
}

/** The bytes of a PDF file. */
export async function printed(definition: TDocumentDefinitions): Promise<Uint8Array> {
  printer ??= loaded();
  return (await printer).createPdf(definition).getBuffer();
}
