import type { FileSubjectType } from '@tackboard/contract';

/** A record that files can belong to. */
export interface Subject {
  readonly type: FileSubjectType;
  readonly id: string;
}
