import { z } from 'zod';

/** Every refusal has one stable code; the status follows from it and stands nowhere else. */
export const refusals = {
  INVALID: 400,
  NOT_SIGNED_IN: 401,
  WRONG_CREDENTIALS: 401,
  NOT_ALLOWED: 403,
  FOREIGN_ORIGIN: 403,
  NOT_FOUND: 404,
  STALE: 409,
  TAKEN: 409,
  DUPLICATE: 409,
  NOT_NOW: 409,
  DOES_NOT_FIT: 409,
  NEEDS_REASON: 422,
  NEEDS_CONFIRMATION: 422,
  TOO_LARGE: 413,
  WRONG_MEDIA_TYPE: 415,
  TOO_MANY_ATTEMPTS: 429,
  INTERNAL: 500,
} as const;

export type RefusalCode = keyof typeof refusals;

const codes = Object.keys(refusals) as [RefusalCode, ...RefusalCode[]];

export const FieldRefusal = z.object({
  /** Dotted path into the body, query or params, e.g. `body.lines.0.quantity`. */
  field: z.string(),
  /** What was given, as text, cut after 200 characters. */
  given: z.string().nullable(),
  /** What is allowed, in words. */
  allowed: z.string(),
});
export type FieldRefusal = z.infer<typeof FieldRefusal>;

export const RefusalReply = z.object({
  code: z.enum(codes),
  /** One or two sentences: what happened, what is allowed, what to do. */
  message: z.string(),
  fields: z.array(FieldRefusal),
  /** The row as it stands now, the holder, the fit answer: whatever helps the caller go on. */
  current: z.unknown().nullable(),
  requestId: z.string(),
});
export type RefusalReply = z.infer<typeof RefusalReply>;
