import { createRequire } from 'node:module';

const { version: own } = createRequire(import.meta.url)('../package.json') as { version: string };

export const version = own;
