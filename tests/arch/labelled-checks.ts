import ts from 'typescript';
import { projectFiles, textOf } from './tracked.js';

const labels = ['printed', 'independent', 'memory', 'pinned'] as const;
export type Label = (typeof labels)[number];

export interface Check {
  readonly file: string;
  readonly title: string;
  /** Null where the title says none: a rule about shapes, refusals or properties. */
  readonly label: Label | null;
  /** Every name that the check uses, its table and the helpers of its file included. */
  readonly names: ReadonlySet<string>;
}

const testFunctions = new Set(['it', 'test']);

/** The checks of calc with the label that their title, or the title of the group around them, begins with. */
export function checksOfCalc(): Check[] {
  return projectFiles()
    .filter((path) => /^packages\/calc\/src\/.*\.test\.ts$/.test(path))
    .flatMap(checksIn);
}

function checksIn(file: string): Check[] {
  const source = ts.createSourceFile(file, textOf(file), ts.ScriptTarget.Latest, true);
  const helpers = helpersOf(source);
  const checks: Check[] = [];
  const visit = (node: ts.Node, group: Label | null): void => {
    if (ts.isCallExpression(node)) {
      const called = rootName(node.expression);
      const title = titleOf(node);
      if (title !== null && called === 'describe') {
        node.arguments.forEach((argument) => visit(argument, labelOf(title) ?? group));
        return;
      }
      if (title !== null && called !== null && testFunctions.has(called)) {
        checks.push({
          ...{ file, title, label: labelOf(title) ?? group },
          names: withHelpers(namesIn(node), helpers),
        });
        return;
      }
    }
    ts.forEachChild(node, (child) => visit(child, group));
  };
  visit(source, null);
  return checks;
}

/** What the file declares at its top, by name, with the names that each declaration uses. */
function helpersOf(source: ts.SourceFile): ReadonlyMap<string, ReadonlySet<string>> {
  const helpers = new Map<string, ReadonlySet<string>>();
  for (const statement of source.statements) {
    if (ts.isFunctionDeclaration(statement) && statement.name)
      helpers.set(statement.name.text, namesIn(statement));
    if (ts.isVariableStatement(statement))
      for (const { name, initializer } of statement.declarationList.declarations)
        if (initializer)
          for (const bound of namesIn(name)) helpers.set(bound, namesIn(initializer));
  }
  return helpers;
}

function withHelpers(
  names: ReadonlySet<string>,
  helpers: ReadonlyMap<string, ReadonlySet<string>>,
): ReadonlySet<string> {
  const reached = new Set<string>();
  const pending = [...names];
  for (let name = pending.pop(); name !== undefined; name = pending.pop()) {
    if (reached.has(name)) continue;
    reached.add(name);
    pending.push(...(helpers.get(name) ?? []));
  }
  return reached;
}

function namesIn(node: ts.Node): Set<string> {
  const names = new Set<string>();
  const visit = (at: ts.Node): void => {
    if (ts.isIdentifier(at)) names.add(at.text);
    ts.forEachChild(at, visit);
  };
  visit(node);
  return names;
}

/** The name at the root of `it`, `it.each(...)` or `describe.each(...)`. */
function rootName(node: ts.Expression): string | null {
  if (ts.isIdentifier(node)) return node.text;
  if (ts.isPropertyAccessExpression(node) || ts.isCallExpression(node))
    return rootName(node.expression);
  return null;
}

function titleOf({ arguments: [first] }: ts.CallExpression): string | null {
  if (first === undefined) return null;
  if (ts.isStringLiteralLike(first)) return first.text;
  return ts.isTemplateExpression(first) ? first.head.text : null;
}

function labelOf(title: string): Label | null {
  return labels.find((label) => new RegExp(`^${label}\\b`).test(title)) ?? null;
}
