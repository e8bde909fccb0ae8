import { createRequire } from 'node:module';
import { dirname, join, posix } from 'node:path';
import vm from 'node:vm';
import { expectIn } from './expect.mjs';
import { gatherer } from './gatherer.mjs';

/**
 * The test files, each of which can be gathered as often as wanted: `gather()` loads it and all it imports anew and
 * gives its tests (name and function), and whether it `meets` any of the changed files.
 */
export function testFilesOf({ folder, modules, changed, tests }) {
  // The same random cases for every change and at every count.
  createRequire(import.meta.url)('fast-check').configureGlobal({ seed: 1 });
  const scripts = new Map();
  const scriptOf = (name) => {
    if (!scripts.has(name)) {
      const text = `(function (require, exports) {${modules.get(name)}\n})`;
      scripts.set(name, new vm.Script(text, { filename: name }));
    }
    return scripts.get(name);
  };
  return tests.map((test) => {
    const path = join(folder, test);
    const outside = createRequire(path);
    const expect = expectIn(dirname(path));
    const gather = () => {
      const { list, describe, it } = gatherer();
      const loaded = new Map([['vitest', { describe, it, test: it, expect }]]);
      const load = (name) => {
        if (loaded.has(name)) return loaded.get(name);
        const exports = {};
        loaded.set(name, exports);
        const near = (wanted) => posix.join(posix.dirname(name), wanted).replace(/\.js$/, '.ts');
        const require = (wanted) =>
          wanted.startsWith('.') ? load(near(wanted)) : (loaded.get(wanted) ?? outside(wanted));
        scriptOf(name).runInThisContext()(require, exports);
        return exports;
      };
      load(test);
      return { list, meets: [...loaded.keys()].some((name) => changed.has(name)) };
    };
    return { name: test, gather };
  });
}
