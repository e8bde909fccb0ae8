export type SourceKind = 'standard' | 'handbook' | 'practice' | 'memory' | 'definition';

export interface Source {
  title: string;
  edition: string | null;
  /** Clause, table or page. */
  clause?: string;
  kind: SourceKind;
}
