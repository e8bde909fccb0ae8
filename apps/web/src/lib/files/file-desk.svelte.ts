import {
  attachRoutes,
  files,
  fileSubjects,
  maxFileBytes,
  type FileSubjectType,
} from '@tackboard/contract';
import { Act } from '$lib/api/act.svelte.js';
import { ApiRefusal } from '$lib/api/refusal.js';
import { newKey } from '$lib/api/request.js';
import { m } from '$lib/paraglide/messages.js';
import { shrunk } from './shrink.js';

interface FilesOf {
  readonly subjectType: FileSubjectType;
  readonly subjectId: string;
}

/** Sends one file and adds it to its record. What was refused stays chosen, so that it can be sent again. */
export class FileDesk {
  readonly upload = new Act();
  readonly attach = new Act();
  /** The file that was chosen and is not stored yet. */
  chosen = $state.raw<File | null>(null);
  #id = '';

  get busy(): boolean {
    return this.upload.busy || this.attach.busy;
  }
  get refusal() {
    return this.upload.refusal ?? this.attach.refusal;
  }

  choose(file: File | null): void {
    this.chosen = file;
    this.#id = newKey();
    this.upload.clear();
    this.attach.clear();
  }

  /** True when the file is stored and belongs to the record. */
  async send({ subjectType, subjectId }: FilesOf): Promise<boolean> {
    const { chosen } = this;
    if (chosen === null) return false;
    const content = await toSend(chosen, subjectType);
    if (content.size > maxFileBytes) {
      this.upload.refusal = tooLarge(chosen);
      return false;
    }
    const form = new FormData();
    form.append('file', content, content === chosen ? chosen.name : jpegName(chosen.name));
    const stored = await this.upload.send(files.upload, { query: { id: this.#id }, form });
    if (stored === null) return false;
    const added = await this.attach.send(attachRoutes[subjectType], {
      params: { subjectId },
      body: { fileId: stored.id },
    });
    if (added !== null) this.choose(null);
    return added !== null;
  }
}

/** A photo is drawn anew; a paper is sent as it is, unless it is a picture too large to be taken. */
async function toSend(file: File, subjectType: FileSubjectType): Promise<Blob> {
  const redrawn = fileSubjects[subjectType].takes === 'picture' || file.size > maxFileBytes;
  if (!redrawn || !file.type.startsWith('image/')) return file;
  // What cannot be drawn here is sent as it is: the server says in words what it is.
  return (await shrunk(file)) ?? file;
}

function jpegName(name: string): string {
  return `${name.replace(/\.[^.]*$/, '')}.jpg`;
}

function tooLarge({ name, size }: File): ApiRefusal {
  const mb = (Math.ceil((size / 1024 / 1024) * 10) / 10).toFixed(1);
  const message = m.file_too_large({ name, mb });
  return new ApiRefusal({ code: 'TOO_LARGE', message, fields: [], current: null, requestId: '' });
}
