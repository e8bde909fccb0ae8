import { pictureMedia } from '@tackboard/contract';
import type { Incoming } from './disk.js';
import { damaged, empty, mediaOf, type Media } from './file-words.js';

interface Looked {
  readonly media: Media;
  readonly widthPx: number | null;
  readonly heightPx: number | null;
}

/** Looks at what came in: what it is, by its bytes. Throws a refusal in words when it cannot be kept. */
export async function lookAt({ path, bytes }: Incoming, name: string): Promise<Looked> {
  if (bytes === 0) throw empty(name);
  // With the first file, not with the service: most hours of a shop see none.
  const { fileTypeFromFile } = await import('file-type');
  const media = mediaOf(name, (await fileTypeFromFile(path).catch(() => undefined)) ?? null);
  if (!isPicture(media)) return { media, widthPx: null, heightPx: null };
  const { imageSizeFromFile } = await import('image-size/fromFile');
  const size = await imageSizeFromFile(path).catch(() => null);
  if (size === null || !(size.width > 0 && size.height > 0)) throw damaged(name, media);
  return { media, widthPx: size.width, heightPx: size.height };
}

export function isPicture(media: string): boolean {
  return pictureMedia.some((one) => one === media);
}
