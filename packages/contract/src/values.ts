import { z } from 'zod';

/** Text that people type: trimmed, without control characters, shown as typed. */
export function text(max: number, min = 1) {
  return z
    .string()
    .trim()
    .min(min, min === 1 ? 'must not be empty' : `must have at least ${min} characters`)
    .max(max, `must have at most ${max} characters`)

    .regex(
      /^[^\u0000-\u0009\u000b-\u001f\u007f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff]*$/u,
      'must not contain control characters',
    );
}

export const Id = z
  .string()
  .regex(
    /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/,
    'must be an id of this shop',
  );
export type Id = z.infer<typeof Id>;

/** Short code on a label: R1, WPS-014, X-210-01. */
export const Code = text(40).regex(
  /^[\p{L}\p{N}][\p{L}\p{N} ._/+-]*$/u,
  'must start with a letter or digit and hold letters, digits, space . _ / + - only',
);

/** A calendar day of the shop, `YYYY-MM-DD`; 31 February is refused. */
export const Day = z.iso.date('must be a real calendar day, written YYYY-MM-DD');
export type Day = z.infer<typeof Day>;

/** An instant in UTC, ISO 8601. */
export const Instant = z.iso.datetime({ error: 'must be an instant, written as ISO 8601 in UTC' });
export type Instant = z.infer<typeof Instant>;

export const Version = z.number().int().min(1);

/** Whole parts in a batch. */
export const Quantity = z
  .number('must be a whole number of parts')
  .int('must be a whole number of parts')
  .min(1, 'must be 1 or more')
  .max(100_000, 'must be 100 000 or less');

/** A count of parts that may be none. */
export const Count = z
  .number()
  .int('must be a whole number')
  .min(0, 'must be 0 or more')
  .max(100_000, 'must be 100 000 or less');

export function quantity(min: number, max: number) {
  return z
    .number(`must be a number from ${min} to ${max}`)
    .min(min, `must be ${min} or more`)
    .max(max, `must be ${max} or less`);
}

/** Bounds of what can be typed; wide on purpose, so that implausible readings are stored as typed. */
export const LengthMm = quantity(0.1, 100_000);
export const ThicknessMm = quantity(0.1, 500);
export const CurrentA = quantity(0.1, 2_000);
export const VoltageV = quantity(0.1, 500);
export const WireSpeedMMin = quantity(0.01, 100);
export const TravelMmMin = quantity(0.1, 20_000);
export const TemperatureC = quantity(-60, 1_500);
export const GasFlowLMin = quantity(0.1, 200);
export const DurationMin = quantity(0, 100_000);
export const Reason = text(500, 3);

/** A range from a signed record; an open end is null, limits are inclusive. */
export const Range = z
  .object({ min: z.number().nullable(), max: z.number().nullable() })
  .refine(
    (r) => r.min === null || r.max === null || r.min <= r.max,
    'the lower limit must not be above the upper limit',
  );
export type Range = z.infer<typeof Range>;

/** A range as it is typed: a limit beyond what the unit allows is in another unit. */
export function rangeUpTo(max: number, unit: string) {
  const limit = z
    .number()
    .min(0, `must be 0 ${unit} or more`)
    .max(max, `must be ${max} ${unit} or less; check the unit`)
    .nullable();
  return z
    .object({ min: limit, max: limit })
    .refine(
      (r) => r.min === null || r.max === null || r.min <= r.max,
      'the lower limit must not be above the upper limit',
    );
}

export const Page = z.object({
  search: z.string().trim().max(100).optional(),
  limit: z.coerce.number().int().min(1).max(500).default(100),
  offset: z.coerce.number().int().min(0).default(0),
});

export const Done = z.object({ done: z.literal(true) });

type WithoutDefault<Field> = Field extends z.ZodDefault<infer Inner> ? Inner : Field;
type Changes<Shape extends z.ZodRawShape> = {
  [Key in keyof Shape]: z.ZodOptional<WithoutDefault<Shape[Key]>>;
};

/**
 * The body of a change: every field may be left out and then stays as it is. `partial()` alone would fill the
 * defaults of a new record into the fields that were left out.
 */
export function changesOf<Shape extends z.ZodRawShape>(
  input: z.ZodObject<Shape>,
): z.ZodObject<Changes<Shape>> {
  const fields = Object.entries(input.shape).map(([key, field]) => [
    key,
    z.optional(field instanceof z.ZodDefault ? field.unwrap() : field),
  ]);
  return z.object(Object.fromEntries(fields) as Changes<Shape>);
}
