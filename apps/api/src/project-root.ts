import { fileURLToPath } from 'node:url';

/** The folder of the root `package.json`; sources and compiled files lie equally deep. */
export const projectRoot = fileURLToPath(new URL('../../../', import.meta.url));
