import { createInstrumenter } from '@stryker-mutator/instrumenter';
import { createInjector } from 'typed-inject';

const silent = () => undefined;
const logger = {
  ...{ trace: silent, debug: silent, info: silent, warn: silent, error: silent, fatal: silent },
  ...{ isTraceEnabled: () => false, isDebugEnabled: () => false },
};

/**
 * The files with every change built in, each behind a switch, so that one copy of the code serves for all of them,
 * and the list of changes: number, file, line and column (from 1), kind of change, and what stands there instead.
 */
export async function instrument(sources) {
  const given = sources.map(({ name, text }) => ({ name, content: text, mutate: true }));
  const { files, mutants } = await createInstrumenter(
    createInjector().provideValue('logger', logger),
  ).instrument(given, { plugins: null, excludedMutations: [], ignorers: [] });
  return {
    files: files.map(({ name, content }) => ({ name, text: content })),
    changes: mutants
      .filter(({ status }) => status === undefined)
      .map(({ id, fileName, location, mutatorName, replacement }) => ({
        id,
        file: fileName,
        line: location.start.line + 1,
        column: location.start.column + 1,
        kind: mutatorName,
        replacement,
      })),
  };
}
