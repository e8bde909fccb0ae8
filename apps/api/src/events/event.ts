import type { SubjectType } from '@tackboard/contract';

export interface NewEvent {
  /** `<subject>.<what happened>`, e.g. `run.counted`. */
  readonly type: string;
  readonly subjectType: SubjectType;
  readonly subjectId: string;
  readonly version?: number;
  readonly cellId?: string;
  readonly before?: unknown;
  readonly after?: unknown;
  readonly reason?: string | null;
  /** What the signature means: made, checked, approved, witnessed, waived. */
  readonly meaning?: 'made' | 'checked' | 'approved' | 'witnessed' | 'waived';
}
