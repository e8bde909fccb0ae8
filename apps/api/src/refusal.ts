import type { FieldRefusal, RefusalCode } from '@tackboard/contract';

/** A "no" with its reason in words; the only error that services throw on purpose. */
export class Refusal extends Error {
  readonly code: RefusalCode;
  readonly fields: readonly FieldRefusal[];
  /** The row as it stands, the holder, the answer: whatever helps the caller go on. */
  readonly current: unknown;

  constructor(
    code: RefusalCode,
    message: string,
    details: { readonly fields?: readonly FieldRefusal[]; readonly current?: unknown } = {},
  ) {
    super(message);
    this.name = 'Refusal';
    this.code = code;
    this.fields = details.fields ?? [];
    this.current = details.current ?? null;
  }
}

export function notFound(what: string, given: string, field?: string): Refusal {
  return new Refusal(
    'NOT_FOUND',
    `There is no ${what} ${given}.`,
    field === undefined ? {} : { fields: [{ field, given, allowed: `an existing ${what}` }] },
  );
}

/** Somebody changed the row first: answers with the row as it stands now. */
export function stale(
  what: string,
  current: { readonly version: number },
  expectedVersion: number,
): Refusal {
  return new Refusal(
    'STALE',
    `This ${what} was changed since you opened it (version ${current.version}, yours was ${expectedVersion}). Look at it as it stands now and enter your change again.`,
    {
      fields: [
        {
          field: 'body.expectedVersion',
          given: String(expectedVersion),
          allowed: String(current.version),
        },
      ],
      current,
    },
  );
}

export function refuseField(
  code: RefusalCode,
  message: string,
  field: string,
  given: unknown,
  allowed: string,
  current?: unknown,
): Refusal {
  return new Refusal(code, message, {
    fields: [
      {
        field,
        given: given === null || given === undefined ? null : String(given).slice(0, 200),
        allowed,
      },
    ],
    current,
  });
}
