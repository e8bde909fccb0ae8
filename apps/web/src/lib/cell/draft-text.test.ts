import { describe, expect, it } from 'vitest';
import { draftsFrom, withField } from './draft-text.js';

const put = (
  drafts: Parameters<typeof withField>[0],
  stepId: string,
  name: string,
  value: string,
) => withField(drafts, { stepId, name, value });

describe('what is half typed', () => {
  it('is kept by job, field by field', () => {
    let drafts = put({}, 'a', 'note', 'tack 3 is');
    drafts = put(drafts, 'a', 'currentA', '25');
    drafts = put(drafts, 'b', 'note', 'other job');
    expect(drafts).toEqual({
      a: { note: 'tack 3 is', currentA: '25' },
      b: { note: 'other job' },
    });
  });

  it('leaves nothing behind once its fields are empty', () => {
    expect(put(put({}, 'a', 'note', 'x'), 'a', 'note', '')).toEqual({});
  });

  it('is dropped for the job that was typed into longest ago', () => {
    let drafts = {};
    for (const stepId of ['a', 'b', 'c', 'd', 'e', 'a', 'f'])
      drafts = put(drafts, stepId, 'n', '1');
    expect(Object.keys(drafts)).toEqual(['c', 'd', 'e', 'a', 'f']);
  });

  it.each([
    ['nothing', null, {}],
    ['no JSON', '{"a"', {}],
    ['another shape', '[1,null]', { '0': {}, '1': {} }],
    ['a field that is no text', '{"a":{"note":"x","n":4}}', { a: { note: 'x' } }],
  ])('reads %s without failing', (_words, stored, drafts) => {
    expect(draftsFrom(stored)).toEqual(drafts);
  });
});
