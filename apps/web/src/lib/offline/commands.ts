import { runs, type FieldRefusal, type RefusalCode } from '@tackboard/contract';

/** The acts that are kept on the tablet until the server has answered, each with its route. */
export const commandRoutes = {
  start: runs.start,
  count: runs.count,
  stop: runs.stop,
  resume: runs.resume,
  reading: runs.read,
  note: runs.note,
} as const;

type CommandKind = keyof typeof commandRoutes;
type BodyFor<Kind extends CommandKind> = Omit<
  (typeof commandRoutes)[Kind]['body']['_zod']['input'],
  'happenedAt'
>;
type JsonAct = {
  [Kind in CommandKind]: { readonly kind: Kind; readonly body: BodyFor<Kind> };
}[CommandKind];

/** A photo, sent as a file under an id that was given here, so that what refers to it can be written down at once. */
interface PhotoAct {
  readonly kind: 'photo';
  readonly body: { readonly fileId: string; readonly name: string; readonly picture: Blob };
}

/** A photo that was sent before belongs to a set-up or a fixture. */
interface PhotoOfAct {
  readonly kind: 'photoOf';
  readonly body: {
    readonly fileId: string;
    readonly subjectType: 'setUp' | 'fixture';
    readonly subjectId: string;
  };
}

/** One act as it was done, before it has a key. */
export type Act = JsonAct | PhotoAct | PhotoOfAct;

interface Doer {
  readonly personId: string;
  readonly personCode: string;
}

export type Command = Act &
  Doer & {
    readonly runId: string;
    readonly cellId: string;
    /** When the button was pressed, by the server's clock as this tablet knows it. */
    readonly happenedAt: string;
  };

export interface RefusedAs {
  readonly code: RefusalCode;
  readonly message: string;
  readonly fields: readonly FieldRefusal[];
}

/** A command in the line. */
export type Entry = Command & {
  /** Names the act for the server, so that sending it twice counts once. */
  readonly key: string;
  /** Its place in the line. */
  readonly order: number;
  /** How often it was sent without an answer. */
  readonly tries: number;
  /** Why the server did not take it: out of the line, until a person has decided. */
  readonly refused: RefusedAs | null;
};
