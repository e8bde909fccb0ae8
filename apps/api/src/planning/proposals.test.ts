import process from 'node:process';
import { describe, expect, it } from 'vitest';
import { createProposals, type NewProposal } from './proposals.js';

/** What keeps this process alive: a thread that was not ended is one of these. */
const threads = () =>
  process.getActiveResourcesInfo().filter((kind) => kind === 'MessagePort').length;

describe('a thread made ready for a proposal', () => {
  it('is ended with the service while its plan is still being prepared', async () => {
    const before = threads();
    const proposals = createProposals();
    const never = new Promise<NewProposal>(() => {});
    void proposals.begin(async () => never);
    expect(threads()).toBeGreaterThan(before);
    await proposals.end();
    expect(threads()).toBe(before);
  });

  it('is ended where there is nothing to plan', async () => {
    const before = threads();
    const proposals = createProposals();
    const refused = proposals.begin(async () => Promise.reject(new Error('No step waits.')));
    await expect(refused).rejects.toThrow('No step waits.');
    expect(threads()).toBe(before);
  });
});
