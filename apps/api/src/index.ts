export { systemActor, type Actor } from './actor.js';
export { buildApp } from './app.js';
export { type Clock } from './clock.js';
export { readConfig, type Config } from './config.js';
export { createContext, type Context } from './context.js';
export { migrate } from './db/migrations.js';
export type { TestsTask } from './tasks/tests-messages.js';
export { startTests } from './tasks/tests-search.js';
