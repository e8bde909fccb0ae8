import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { Stop } from '../preparation/run.mjs';

const usage =
  'npm run mutation -- <folder or file> [...] [--slowest MS] [--sample N] [--json FILE] [--sources FOLDER]';

/**
 * What is asked for on the command line.
 * Names are folders or files below `sources`; none means all. Tests slower than `slowestMs` are left out; `sample`
 * changes are tried, picked evenly; the whole result goes to the file `json`.
 */
export function optionsFrom(args, defaultSources) {
  const { values, positionals } = parsed(args);
  return {
    names: positionals.map((name) => name.replace(/\/$/, '')),
    sources: values.sources === undefined ? defaultSources : resolve(values.sources),
    slowestMs: numberFrom('slowest', values.slowest),
    sample: numberFrom('sample', values.sample),
    json: values.json === undefined ? null : resolve(values.json),
  };
}

function parsed(args) {
  const text = { type: 'string' };
  const options = { slowest: text, sample: text, json: text, sources: text };
  try {
    return parseArgs({ args, options, allowPositionals: true });
  } catch (error) {
    throw new Stop(`${error.message} Usage: ${usage}`);
  }
}

function numberFrom(name, text) {
  if (text === undefined) return Infinity;
  const value = Number(text);
  if (value > 0) return value;
  throw new Stop(`--${name} is "${text}"; a number above 0 is wanted. Usage: ${usage}`);
}
