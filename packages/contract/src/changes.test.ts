import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { areas } from './routes.js';
import { changesOf } from './values.js';

const Input = z.object({
  name: z.string(),
  stations: z.number().int().default(1),
  customerId: z.string().nullable().default(null),
});

describe('the body of a change', () => {
  it('leaves out what was left out, also where a new record has a default', () => {
    expect(changesOf(Input).parse({ name: 'Booth' })).toEqual({ name: 'Booth' });
    expect(changesOf(Input).parse({ customerId: null })).toEqual({ customerId: null });
  });
  it('checks what was given', () => {
    expect(changesOf(Input).safeParse({ stations: 1.5 }).success).toBe(false);
  });
  it.each([
    ['cells', areas.cells.edit.body],
    ['parts', areas.parts.edit.body],
    ['fixtures', areas.parts.editFixture.body],
    ['people', areas.people.edit.body],
  ])('of %s fills nothing in', (_area, body) => {
    expect(body.parse({ expectedVersion: 3 })).toEqual({ expectedVersion: 3 });
  });
});
