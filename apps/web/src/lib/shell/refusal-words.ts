import type { RefusalCode } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';

const titles: Readonly<Record<RefusalCode, () => string>> = {
  INVALID: m.refusal_invalid,
  NOT_SIGNED_IN: m.refusal_not_signed_in,
  WRONG_CREDENTIALS: m.refusal_wrong_credentials,
  NOT_ALLOWED: m.refusal_not_allowed,
  FOREIGN_ORIGIN: m.refusal_not_allowed,
  NOT_FOUND: m.refusal_not_found,
  STALE: m.refusal_stale,
  TAKEN: m.refusal_taken,
  DUPLICATE: m.refusal_duplicate,
  NOT_NOW: m.refusal_not_now,
  DOES_NOT_FIT: m.refusal_does_not_fit,
  NEEDS_REASON: m.refusal_needs_reason,
  NEEDS_CONFIRMATION: m.refusal_needs_confirmation,
  TOO_LARGE: m.refusal_too_large,
  WRONG_MEDIA_TYPE: m.refusal_invalid,
  TOO_MANY_ATTEMPTS: m.refusal_too_many_attempts,
  INTERNAL: m.refusal_fault,
};

/** What kind of refusal it is, in the language of the screen. */
export function refusalTitle(code: RefusalCode): string {
  return titles[code]();
}
