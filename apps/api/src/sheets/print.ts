import { createRequire } from 'node:module';
import path from 'node:path';
import pdfmake from 'pdfmake';
import type { TDocumentDefinitions } from 'pdfmake/interfaces.js';

// The typeface lies in the library's own folder: it has the letters of every European language, and nothing is fetched.
const library = path.dirname(createRequire(import.meta.url).resolve('pdfmake/package.json'));
const fontFolder = path.join(library, 'fonts', 'Roboto');
const file = (name: string) => path.join(fontFolder, name);

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

/** The bytes of a PDF file. */
export async function printed(definition: TDocumentDefinitions): Promise<Uint8Array> {
  return pdfmake.createPdf(definition).getBuffer();
}
