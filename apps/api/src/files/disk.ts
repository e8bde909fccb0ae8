import { createHash, randomUUID } from 'node:crypto';
import { createReadStream, createWriteStream, type ReadStream } from 'node:fs';
import { access, mkdir, open, readdir, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { Transform, type Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';

/** Bytes that have come in whole and lie under a name of their own until somebody keeps or drops them. */
export interface Incoming {
  readonly path: string;
  readonly sha256: string;
  readonly bytes: number;
}

export type FileDisk = ReturnType<typeof fileDisk>;

/** The folder of the files. The same content lies there once, under its SHA-256, and is never changed. */
export function fileDisk(folder: string) {
  const incoming = path.join(folder, 'incoming');
  const placeOf = (sha256: string) => path.join(folder, sha256.slice(0, 2), sha256.slice(2));

  return {
    /** Takes a stream in, piece by piece; what does not arrive whole leaves nothing behind. */
    async receive(stream: Readable): Promise<Incoming> {
      await mkdir(incoming, { recursive: true });
      const file = path.join(incoming, randomUUID());
      const hash = createHash('sha256');
      let bytes = 0;
      const counted = new Transform({
        transform(chunk: Buffer, _encoding, done) {
          hash.update(chunk);
          bytes += chunk.length;
          done(null, chunk);
        },
      });
      try {
        await pipeline(stream, counted, createWriteStream(file, { flags: 'wx', flush: true }));
      } catch (error) {
        await rm(file, { force: true });
        throw error;
      }
      return { path: file, sha256: hash.digest('hex'), bytes };
    },

    /** Gives the bytes their final name. After that the row may say that they are there. */
    async keep({ path: from, sha256 }: Pick<Incoming, 'path' | 'sha256'>): Promise<void> {
      const to = placeOf(sha256);
      if (await isThere(to)) return drop(from);
      await mkdir(path.dirname(to), { recursive: true });
      await rename(from, to);
      await syncFolder(path.dirname(to));
      await syncFolder(folder);
    },

    drop: async ({ path: file }: Pick<Incoming, 'path'>) => drop(file),

    read: (sha256: string): ReadStream => createReadStream(placeOf(sha256)),

    pathOf: placeOf,

    async remove(sha256: string): Promise<void> {
      await drop(placeOf(sha256));
    },

    /** What was on its way when the service ended. Only before anything comes in. */
    async clearIncoming(): Promise<void> {
      const names = await readdir(incoming).catch(() => []);
      await Promise.all(names.map(async (name) => drop(path.join(incoming, name))));
    },
  };
}

async function drop(file: string): Promise<void> {
  await rm(file, { force: true });
}

async function isThere(file: string): Promise<boolean> {
  return access(file).then(
    () => true,
    () => false,
  );
}

/** A new name is on the disk only when its folder is. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}
