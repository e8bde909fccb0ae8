import { rm } from 'node:fs/promises';
import type { TestProject } from 'vitest/node';
import { startTool } from './tool.js';

declare module 'vitest' {
  export interface ProvidedContext {
    /** A data folder that holds the demo shop; start a service on a copy of it. */
    demoFolder: string;
  }
}

/** Loads the demo shop once for all screen tests, by starting the service on an empty data folder. */
export default async function loadDemoShop(project: TestProject): Promise<() => Promise<void>> {
  const { folder, end } = await startTool();
  await end();
  project.provide('demoFolder', folder);
  return async () => rm(folder, { recursive: true, force: true });
}
