import { expect, it } from 'vitest';
import { noteSignedIn, tellSignedOut, whenSignedOut } from './signed-out.js';

it('signs nobody out because of a request that left before they signed in', () => {
  let told = 0;
  const stop = whenSignedOut(() => (told += 1));
  tellSignedOut(100);
  expect(told).toBe(1);
  noteSignedIn(250);
  tellSignedOut(200);
  expect(told).toBe(1);
  tellSignedOut(300);
  expect(told).toBe(2);
  stop();
  tellSignedOut(400);
  expect(told).toBe(2);
});
