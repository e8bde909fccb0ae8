import fastify from 'fastify';
import { describe, expect, it } from 'vitest';
import { openApi } from './openapi.js';

describe('a door below /api', () => {
  it('does not boot without a rule of the contract behind it', () => {
    const app = fastify();
    openApi(app);
    expect(() => app.get('/api/back-door', async () => 'open')).toThrow('no access rule');
  });

  it('is not asked for elsewhere', () => {
    const app = fastify();
    openApi(app);
    expect(() => app.get('/somewhere', async () => 'open')).not.toThrow();
  });
});
