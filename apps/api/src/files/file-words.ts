import type { fileMedia } from '@tackboard/contract';
import { refuseField, type Refusal } from '../refusal.js';

export type Media = (typeof fileMedia)[number];

const allowedWords = 'a PDF, JPEG, PNG or WebP file of up to 20 MB';
const field = 'file';

const mediaOfEnding: Readonly<Record<string, Media>> = {
  pdf: 'application/pdf',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  png: 'image/png',
  webp: 'image/webp',
};
const mediaWords: Readonly<Record<Media, string>> = {
  'application/pdf': 'PDF',
  'image/jpeg': 'JPEG',
  'image/png': 'PNG',
  'image/webp': 'WebP',
};

/** The last part of a name as given, without what no label shows; a form writes a quotation mark as %22. */
export function nameOf(given: string): string {
  const last = given.replaceAll('%22', '"').split(/[\\/]/).at(-1) ?? '';
  const name = last.replace(/[\p{Cc}\p{Cs}\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu, '').trim();
  return name === '' ? 'file' : name.slice(-120);
}

function endingOf(name: string): string {
  return /\.([a-z0-9]{1,5})$/i.exec(name)?.[1]?.toLowerCase() ?? '';
}

/**
 * The media type of a file by its bytes, or a refusal in words. `found` is what the bytes say, null where they say
 * nothing. A name with another ending than its content is refused: somebody has mixed something up.
 */
export function mediaOf(name: string, found: { ext: string; mime: string } | null): Media {
  const media = Object.keys(mediaWords).find((one): one is Media => one === found?.mime);
  if (media === undefined) throw notShown(name, found?.ext ?? null);
  const ending = endingOf(name);
  if (ending === '' || mediaOfEnding[ending] === media) return media;
  throw refuse(
    'DOES_NOT_FIT',
    `"${name}" says .${ending} but is a ${mediaWords[media]}. Choose the right file, or give it its right ending.`,
    name,
  );
}

function notShown(name: string, ext: string | null): Refusal {
  if (ext === 'heic' || ext === 'heif' || ext === 'avif') {
    return refuse(
      'WRONG_MEDIA_TYPE',
      `"${name}" is a ${ext.toUpperCase()} photo, which not every screen here can show. Let the camera take JPEG, or choose a PDF, JPEG, PNG or WebP.`,
      name,
    );
  }
  const what = ext === null ? 'is none of the files that are kept here' : `is a ${ext} file`;
  return refuse(
    'WRONG_MEDIA_TYPE',
    `"${name}" ${what}. PDF, JPEG, PNG and WebP can be kept: save or scan it as one of these.`,
    name,
  );
}

/** `bytes` is what the sender announced; null where it did not. */
export function tooLarge(name: string, bytes: number | null): Refusal {
  const size = bytes === null ? 'larger than 20 MB' : `${megabytes(bytes)} MB large`;
  return refuse(
    'TOO_LARGE',
    `"${name}" is ${size}. Up to 20 MB can be kept: scan it with fewer dots per inch, or send the photo smaller.`,
    name,
  );
}

/** Rounded up, so that what is too large never reads as if it were not. */
function megabytes(bytes: number): string {
  return (Math.ceil((bytes / 1024 / 1024) * 10) / 10).toFixed(1);
}

export function damaged(name: string, media: Media): Refusal {
  return refuse(
    'DOES_NOT_FIT',
    `"${name}" begins like a ${mediaWords[media]}, but its size cannot be read: it is damaged or cut off. Take or scan it again.`,
    name,
  );
}

export function empty(name: string): Refusal {
  return refuse('DOES_NOT_FIT', `"${name}" is empty. Choose the file again.`, name);
}

function refuse(code: Refusal['code'], message: string, name: string | null): Refusal {
  return refuseField(code, message, field, name, allowedWords);
}
