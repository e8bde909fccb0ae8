import { format } from 'node:util';

const argumentsOf = (row) => (Array.isArray(row) ? row : [row]);

/** `describe` and `it` as vitest has them, which put what they are given into a list instead of running it. */
export function gatherer() {
  const list = [];
  const groups = [];
  const it = (name, run) => void list.push({ name: [...groups, name].join(' > '), run });
  const describe = (name, gather) => {
    groups.push(name);
    gather();
    groups.pop();
  };
  return { list, describe: withTables(describe), it: withTables(it) };
}

function withTables(take) {
  const each = (rows) => (name, body) =>
    rows.forEach((row, at) =>
      take(`${format(name, ...argumentsOf(row))} (${at + 1})`, () => body(...argumentsOf(row))),
    );
  return Object.assign(take, { each });
}
