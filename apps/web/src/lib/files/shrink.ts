/** Enough to see a pore of a millimetre on a part of a metre, and well below what the server takes. */
const longestPx = 2_048;
const jpegQuality = 0.85;

interface Size {
  readonly width: number;
  readonly height: number;
}

/** The size of a picture whose longer side is no longer than `longest`; a small one stays as it is. */
export function fitted({ width, height }: Size, longest = longestPx): Size {
  const scale = Math.min(1, longest / Math.max(width, height));
  const scaled = (side: number) => Math.max(1, Math.round(side * scale));
  return { width: scaled(width), height: scaled(height) };
}

/**
 * A photo drawn anew as a JPEG of a size that can be sent, upright as it was taken. What the camera wrote beside the
 * picture stays behind with that, the place where it was taken above all. Null where this browser cannot read it.
 */
export async function shrunk(photo: Blob): Promise<Blob | null> {
  const picture = await createImageBitmap(photo).catch(() => null);
  if (picture === null) return null;
  const { width, height } = fitted(picture);
  const canvas = Object.assign(document.createElement('canvas'), { width, height });
  canvas.getContext('2d')?.drawImage(picture, 0, 0, width, height);
  picture.close();
  return new Promise((resolve) => canvas.toBlob(resolve, 'image/jpeg', jpegQuality));
}
