import { Readable } from 'node:stream';
import { crc32, deflateSync } from 'node:zlib';
import { by, type ShopFile } from './shop-file.js';

const [width, height] = [640, 400];
type Colour = readonly [red: number, green: number, blue: number];

/** A rectangle of one colour, in dots from the upper left corner. */
interface Patch {
  readonly at: readonly [left: number, top: number, right: number, bottom: number];
  readonly colour: Colour;
}

const steel: Colour = [142, 148, 154];
const darkSteel: Colour = [96, 102, 108];
const clamp: Colour = [196, 92, 40];
const table: Colour = [58, 62, 68];
const wall: Colour = [188, 192, 196];

/** A bracket on its fixture: base plate, web, three clamps on a welding table. */
const clampedBracket: readonly Patch[] = [
  { at: [0, 290, 640, 400], colour: table },
  { at: [120, 250, 520, 290], colour: steel },
  { at: [296, 90, 344, 250], colour: darkSteel },
  { at: [120, 200, 170, 250], colour: clamp },
  { at: [470, 200, 520, 250], colour: clamp },
  { at: [280, 60, 360, 90], colour: clamp },
];

/** A fixture on the lower board of a rack. */
const fixtureInRack: readonly Patch[] = [
  { at: [60, 40, 80, 380], colour: darkSteel },
  { at: [560, 40, 580, 380], colour: darkSteel },
  { at: [60, 120, 580, 136], colour: steel },
  { at: [60, 300, 580, 316], colour: steel },
  { at: [180, 250, 460, 300], colour: table },
  { at: [200, 200, 230, 250], colour: clamp },
  { at: [410, 200, 440, 250], colour: clamp },
];

/** Drawn photos of the set-up of a part that returns often, and of its fixture in its place. */
export async function photographSetUp(
  shop: ShopFile,
  { setUpId, fixtureId }: { readonly setUpId: string; readonly fixtureId: string },
): Promise<void> {
  const { files } = shop.context.services;
  const actor = by(shop, 'O03');
  const pictures = [
    { type: 'setUp', id: setUpId, name: 'clamped.png', patches: clampedBracket },
    { type: 'fixture', id: fixtureId, name: 'in its place.png', patches: fixtureInRack },
  ] as const;
  for (const { type, id, name, patches } of pictures) {
    const stream = Readable.from([drawn(patches)]);
    const incoming = await files.receive(stream, { name, announced: null });
    const stored = await files.upload(actor, incoming, { name });
    await files.attach(actor, { type, id }, stored.id);
  }
}

/** A PNG file of patches on a wall, the later ones in front. */
function drawn(patches: readonly Patch[]): Buffer {
  const row = 1 + 3 * width;
  const dots = Buffer.alloc(row * height);
  const paint = ({ at: [left, top, right, bottom], colour }: Patch) => {
    for (let y = top; y < bottom; y += 1)
      for (let x = left; x < right; x += 1) dots.set(colour, y * row + 1 + 3 * x);
  };
  for (const patch of [{ at: [0, 0, width, height] as const, colour: wall }, ...patches])
    paint(patch);
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 2, 0, 0, 0], 8);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    ...[signature, chunk('IHDR', header)],
    ...[chunk('IDAT', deflateSync(dots)), chunk('IEND', Buffer.alloc(0))],
  ]);
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const frame = Buffer.alloc(8);
  frame.writeUInt32BE(data.length, 0);
  frame.writeUInt32BE(crc32(body), 4);
  return Buffer.concat([frame.subarray(0, 4), body, frame.subarray(4)]);
}
