import { RefusalReply, type RefusalCode } from '@tackboard/contract';

/** The server's "no", with its reason in words and the fields it concerns. */
export class ApiRefusal extends Error {
  readonly code: RefusalCode;
  readonly fields: RefusalReply['fields'];
  readonly current: unknown;
  readonly requestId: string;

  constructor(reply: RefusalReply) {
    super(reply.message);
    this.name = 'ApiRefusal';
    this.code = reply.code;
    this.fields = reply.fields;
    this.current = reply.current;
    this.requestId = reply.requestId;
  }
}

/** No answer came: the server is down or the radio is. What was typed is still on the screen. */
export class NotReached extends Error {
  constructor(options?: ErrorOptions) {
    super('The server did not answer.', options);
    this.name = 'NotReached';
  }
}

/** Reads a refusal; anything else than the agreed shape counts as a server that did not answer. */
export function refusalFrom(reply: unknown): ApiRefusal | NotReached {
  const parsed = RefusalReply.safeParse(reply);
  return parsed.success ? new ApiRefusal(parsed.data) : new NotReached();
}
