import ts from 'typescript';

const compilerOptions = {
  module: ts.ModuleKind.CommonJS,
  target: ts.ScriptTarget.ES2023,
  esModuleInterop: true,
};

/** JavaScript by the name of the TypeScript file, as modules that can be loaded anew as often as wanted. */
export function toModules(files) {
  return new Map(
    files.map(({ name, text }) => [
      name,
      ts.transpileModule(text, { compilerOptions, fileName: name }).outputText,
    ]),
  );
}
