import { posix } from 'node:path';

export interface Mention {
  file: string;
  name: string;
}

interface Document {
  file: string;
  text: string;
}

const codeSpan = /`([^`\n]+)`/g;
const link = /\]\(([^)\s]+)\)/g;
const script = /\bnpm (?:run ([\w:-]+)|(start|test)\b)/g;
const pathLike = /^[\w.@-]+(\/[\w.@-]+)*\/?$/;
const writtenFile = /\w\.(md|ts|js|mjs|json|svelte|css|prisma|png|sql)$/;

/** The npm scripts that a document tells its reader to run. */
export function scriptsNamedIn({ file, text }: Document): Mention[] {
  return [...text.matchAll(script)].map(([, run, short]) => ({ file, name: run ?? short ?? '' }));
}

/** Where the links of a document lead inside the project, as paths from the top. */
export function linksIn({ file, text }: Document): Mention[] {
  return [...text.matchAll(link)]
    .map(([, target]) => (target ?? '').replace(/#.*$/, ''))
    .filter((target) => target !== '' && !/^[a-z]+:/.test(target))
    .map((target) => ({ file, name: posix.join(posix.dirname(file), target) }));
}

/**
 * Files and folders named in code spans. A unit such as `m/min` has the form of a path too, so a
 * span counts when it ends like a file we write or starts with one of the project's top folders.
 */
export function pathsIn({ file, text }: Document, topFolders: ReadonlySet<string>): Mention[] {
  return [...text.matchAll(codeSpan)]
    .map(([, span]) => span ?? '')
    .filter((span) => pathLike.test(span))
    .filter((span) => writtenFile.test(span) || topFolders.has(span.split('/')[0] ?? ''))
    .map((name) => ({ file, name }));
}
