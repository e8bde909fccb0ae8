import * as calc from '@tackboard/calc';
import { sources } from '@tackboard/calc';
import { describe, expect, it } from 'vitest';
import { checksOfCalc, type Label } from './labelled-checks.js';
import { projectFiles, textOf } from './tracked.js';

const checks = checksOfCalc();
const modules = projectFiles().filter(
  (path) =>
    /^packages\/calc\/src\/.*\.ts$/.test(path) &&
    !/(\.test\.ts|\/sources\/.*|\/testing\/.*)$/.test(path),
);
const functions = Object.entries(calc)
  .filter(([, value]) => typeof value === 'function')
  .map(([name]) => name);

describe('every figure of calc', () => {
  it('has a check against print or by a second route', () => {
    expect(functions.length).toBeGreaterThan(20);
    const firm = checks.filter(({ label }) => label === 'printed' || label === 'independent');
    const unchecked = functions.filter((name) => !firm.some(({ names }) => names.has(name)));
    expect(unchecked).toEqual([]);
  });

  it('says in its description what it gives', () => {
    const undescribed = functions.filter(
      (name) => !modules.some((path) => described(name).test(textOf(path))),
    );
    expect(undescribed).toEqual([]);
  });

  it('rests on works that are listed, and every listed work bears something', async () => {
    await expect(page()).toMatchFileSnapshot('../../docs/sources.md');
    expect(Object.keys(sources).filter((id) => citing(id).length === 0)).toEqual([]);
  });
});

function described(name: string): RegExp {
  return new RegExp(`\\*/\\nexport ((async )?function\\*?|const) ${name}\\b`);
}

function citing(id: string): string[] {
  const cited = new RegExp(`['"]${id}['"]`);
  return modules
    .filter((path) => cited.test(textOf(path)))
    .map((path) => path.replace('packages/calc/src/', '').replace('.ts', ''));
}

const kinds = {
  standard: 'Standards',
  handbook: 'Handbooks, textbooks and papers',
  practice: 'Common practice of the trade',
  memory: 'From memory, to be checked against the shop’s own copy',
  definition: 'Definitions and plain arithmetic',
} as const;

function page(): string {
  const count = (label: Label) => checks.filter((check) => check.label === label).length;
  const works = Object.entries(kinds).flatMap(([kind, heading]) => {
    const rows = Object.entries(sources)
      .filter(([, source]) => source.kind === kind)
      .map(([id, source]) => {
        const { title, edition, clause } = { clause: null, ...source };
        return `- ${[title, edition, clause].filter((part) => part !== null).join(', ')}  \n  ${citing(id).join(', ')}`;
      });
    return rows.length === 0 ? [] : [`## ${heading}`, '', ...rows, ''];
  });
  return [
    '# Sources',
    '',
    'Every work that the calculations cite, and the modules of `packages/calc/src` that rest on it. Made from the code;',
    'after a change that is meant, `npx vitest run --project arch tests/arch/calc-checks.test.ts -u` writes this page anew.',
    '',
    'The checks of the calculations by what they are held against (a table of cases counts once):',
    '',
    `- printed, the value stands in a published source: ${count('printed')}`,
    `- independent, worked out by a second route: ${count('independent')}`,
    `- memory, as the trade recalls it, to be checked against print: ${count('memory')}`,
    `- pinned, our own output, kept to notice a change: ${count('pinned')}`,
    `- rules of shape, refusal and property without a figure of their own: ${checks.filter(({ label }) => label === null).length}`,
    '',
    ...works,
  ].join('\n');
}
