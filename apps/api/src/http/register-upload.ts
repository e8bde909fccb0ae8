import { maxFileBytes, type ReplyOf, type Route } from '@tackboard/contract';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import type { Readable } from 'node:stream';
import { Refusal } from '../refusal.js';
import { answered, doorOf, type Call } from './register-route.js';

interface Received {
  readonly path: string;
  readonly sha256: string;
  readonly bytes: number;
}

interface Receiver {
  /** `announced` is what the sender says it sends, null where it does not. */
  receive(
    stream: Readable & { readonly truncated: boolean },
    given: { readonly name: string; readonly announced: number | null },
  ): Promise<Received>;
  drop(received: Received): Promise<void>;
}

/** What came in, whole, with its name as given. */
interface Upload {
  readonly incoming: Received;
  readonly name: string;
}

/**
 * The door of an operation that takes one file. The file streams to the disk, then the command is decided: its key
 * stands for the content as well, so a repeat gets the first answer and another file under the same key is refused.
 */
export function registerUpload<R extends Route>(
  app: FastifyInstance,
  route: R,
  receiver: Receiver,
  handle: (call: Call<R>, upload: Upload) => Promise<ReplyOf<R>>,
): void {
  app.route({
    ...doorOf(route),
    handler: async (request) => {
      const upload = await received(request, receiver);
      const { sha256 } = upload.incoming;
      try {
        return await answered(app, route, request, {
          body: { sha256, name: upload.name },
          act: async (call) => handle(call, upload),
        });
      } finally {
        await receiver.drop(upload.incoming);
      }
    },
  });
}

/** One byte more than may be kept comes in, so that the file itself shows that it is too large. */
const limits = { fileSize: maxFileBytes + 1, files: 1, fields: 4, fieldSize: 1_000 };

async function received(request: FastifyRequest, receiver: Receiver): Promise<Upload> {
  if (!request.isMultipart())
    throw new Refusal('WRONG_MEDIA_TYPE', 'A file is sent as a form, as multipart/form-data.');
  try {
    const part = await request.file({ limits, throwFileSizeLimit: false });
    if (part === undefined) throw missing();
    const length = Number(request.headers['content-length']);
    const announced = Number.isFinite(length) ? length : null;
    const name = part.filename;
    return { name, incoming: await receiver.receive(part.file, { name, announced }) };
  } catch (error) {
    if (error instanceof Refusal || isDiskFull(error)) throw error;
    throw new Refusal(
      'INVALID',
      'The file did not arrive whole: the form could not be read to its end. Send it again.',
    );
  }
}

function isDiskFull(error: unknown): boolean {
  return error instanceof Error && 'syscall' in error && 'path' in error;
}

function missing(): Refusal {
  return new Refusal('INVALID', 'No file came with the form. Choose a file and send it again.', {
    fields: [{ field: 'file', given: null, allowed: 'one file' }],
  });
}
