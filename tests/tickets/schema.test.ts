import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { FIELD_TABLE, FIELDS } from '#engine/fields.ts';
import { ticket as shape, ticketJsonSchema } from '#tickets/schema.ts';
import { ticketOf, whole } from './sample.ts';

const ticket = ticketOf(whole());
type Draft = typeof ticket & Record<string, unknown>;
const changed = (change: (copy: Draft) => void): unknown => {
  const copy = structuredClone(ticket) as Draft;
  change(copy);
  return copy;
};

describe('the ticket’s schema', () => {
  it('survives being stored: the same after JSON', () => {
    expect(shape.parse(JSON.parse(JSON.stringify(ticket)))).toEqual(ticket);
  });

  it.each([
    ['another format', changed(copy => Object.assign(copy, { format: 2 }))],
    ['a field missing', changed(copy => Reflect.deleteProperty(copy.fields, 'place.site'))],
    [
      'a field nobody knows',
      changed(copy => Object.assign(copy.fields, { 'place.moon': { state: 'unknown' } })),
    ],
    [
      'what is always asked called not needed',
      changed(copy => Object.assign(copy.fields, { 'place.site': { state: 'not-needed' } })),
    ],
    [
      'no reason for not asking',
      changed(copy => Object.assign(copy.fields, { 'place.site': { state: 'not-asked' } })),
    ],
    ['a priority that there is not', changed(copy => Object.assign(copy, { priority: 'urgent' }))],
    ['something that is not its own', changed(copy => Object.assign(copy, { mood: 'blue' }))],
  ])('refuses %s', (_, wrong) => expect(shape.safeParse(wrong).success).toBe(false));
});

describe('the schema for other programs', () => {
  const schema = ticketJsonSchema();

  it('is JSON Schema 2020-12 that says which fields there must be, and which may be not needed', () => {
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    const fields = schema.properties!.fields as { required: string[]; properties: Record<string, object> };
    expect(fields.required.toSorted()).toEqual(FIELDS.toSorted());
    for (const field of FIELDS) {
      expect(JSON.stringify(fields.properties[field]).includes('not-needed')).toBe(
        !FIELD_TABLE[field].always,
      );
    }
  });

  it('accepts and refuses as the ticket’s own schema does', () => {
    const read = z.fromJSONSchema(JSON.parse(JSON.stringify(schema)));
    expect(read.safeParse(ticket).success).toBe(true);
    expect(read.safeParse(changed(copy => Object.assign(copy, { priority: 'urgent' }))).success).toBe(false);
    expect(read.safeParse(changed(copy => Reflect.deleteProperty(copy, 'why'))).success).toBe(false);
  });
});
