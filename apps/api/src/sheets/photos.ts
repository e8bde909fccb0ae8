import { readFile } from 'node:fs/promises';
import type { Content } from 'pdfmake/interfaces.js';
import type { FilesService } from '../files/service.js';
import { heading, typed } from './blocks.js';

/** A photo with what is printed of it; null where the printer cannot draw it. */
export interface PhotoToPrint {
  readonly caption: string;
  readonly image: string | null;
}

const mostPhotos = 6;
/** A photo from a tablet has less than a tenth of this; a sheet is made in memory. */
const mostBytes = 4 * 1024 * 1024;
const drawable = ['image/jpeg', 'image/png'];

/** The newest photos of a set-up and of the place of its fixture. */
export async function photosToPrint(
  files: Pick<FilesService, 'picturesOf'>,
  { id, fixtureId }: { readonly id: string; readonly fixtureId: string | null },
): Promise<PhotoToPrint[]> {
  const ofSetUp = await files.picturesOf({ type: 'setUp', id });
  const ofFixture =
    fixtureId === null ? [] : await files.picturesOf({ type: 'fixture', id: fixtureId });
  const all = [
    ...ofSetUp.slice(-mostPhotos + 1).map((picture) => ({ ...picture, of: 'Set-up' })),
    ...ofFixture.slice(-1).map((picture) => ({ ...picture, of: 'Fixture in its place' })),
  ];
  const photos: PhotoToPrint[] = [];
  // One after the other: only what is printed is held in memory.
  for (const { of, name, media, bytes, path } of all) {
    const small = drawable.includes(media) && bytes <= mostBytes;
    const content = small ? await readFile(path).catch(() => null) : null;
    const image = content === null ? null : `data:${media};base64,${content.toString('base64')}`;
    photos.push({ caption: `${of}: ${name}`, image });
  }
  return photos;
}

/** Two beside each other, each with its name; nothing where there is none. */
export function photoPages(photos: readonly PhotoToPrint[]): Content[] {
  if (photos.length === 0) return [];
  const cells = photos.map(({ caption, image }): Content => ({
    unbreakable: true,
    margin: [0, 2, 0, 6],
    stack: [
      image === null
        ? { text: 'See it on the screen.', italics: true }
        : { image, fit: [245, 184] },
      typed(caption),
    ],
  }));
  const rows = cells.flatMap((cell, at): Content[] =>
    at % 2 === 0 ? [{ columnGap: 12, columns: [cell, cells[at + 1] ?? ''] }] : [],
  );
  return [heading('Photos'), ...rows];
}
