import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  GLOBAL_EXPECT,
  JestAsymmetricMatchers,
  JestChaiExpect,
  JestExtend,
  setState,
} from '@vitest/expect';
import * as chai from 'chai';

for (const plugin of [JestExtend, JestChaiExpect, JestAsymmetricMatchers]) chai.use(plugin);

/** The `expect` of vitest without its runner; kept snapshots are read from files beside the test and never written. */
export function expectIn(folder) {
  const expect = Object.assign((value, message) => chai.expect(value, message), chai.expect);
  globalThis[GLOBAL_EXPECT] = expect;
  setState({ assertionCalls: 0, isExpectingAssertions: false, currentTestName: '' }, expect);
  const kept = new Map();
  const textOf = (file) => kept.get(file) ?? readFileSync(join(folder, file), 'utf8');
  return Object.assign((value, message) => {
    const assertion = expect(value, message);
    assertion.toMatchFileSnapshot = async (file) => {
      kept.set(file, textOf(file));
      chai.assert(kept.get(file) === value, `differs from the kept ${file}`);
    };
    return assertion;
  }, expect);
}
