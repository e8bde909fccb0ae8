import {
  laxAnswers,
  policyFloor,
  startingPolicy,
  type FitVariable,
  type PersonVariable,
  type PolicyRow,
  type PolicyTable,
} from '@tackboard/calc';
import type { BodyOf, ParamsOf, PolicyLine, qualification } from '@tackboard/contract';
import type { Actor } from '../actor.js';
import type { Db } from '../db/client.js';
import { changedFields } from '../events/changed-fields.js';
import type { Foundation } from '../foundation.js';
import { fitVariables, fitVariableWord } from '../queue/fit-words.js';
import { personVariables, personVariableWord } from '../queue/person-words.js';
import { notFound, Refusal, stale } from '../refusal.js';
import { policyReader, policyWriter, type ChangedRow } from './store.js';

type Route = (typeof qualification)['setPolicy'];
export type PolicyService = ReturnType<typeof createPolicyService>;

/** What the answers of a fit do in this shop: the table it started with, and the rows changed since. */
export function createPolicyService({ database, uow }: Foundation) {
  return {
    /** The table that every fit is judged by; inside the caller's unit of work when it passes it. */
    async table(db: Db = database.reader): Promise<PolicyTable> {
      return tableOf(await policyReader(db).changed());
    },

    async lines(): Promise<PolicyLine[]> {
      return linesOf(await policyReader(database.reader).changed());
    },

    /** A row may be made stricter than it is, or laxer down to the floor; never below. */
    async change(
      actor: Actor,
      { subject, variable }: ParamsOf<Route>,
      { expectedVersion, reason, ...row }: BodyOf<Route>,
    ): Promise<PolicyLine> {
      const name = `${subject}.${variable}`;
      return uow.write(actor, async (unit) => {
        const store = policyWriter(unit.tx);
        const before = lineNamed(linesOf(await store.changed()), name);
        if (before === undefined) throw notFound('rule', name, 'params.variable');
        if (before.version !== expectedVersion) throw stale('rule', before, expectedVersion);
        refuseLax(before, row);
        const version = before.version + 1;
        await store.set({ name, row, version });
        const { outside, outsideCoded, cannotSay } = before;
        unit.append({
          type: 'policy.changed',
          subjectType: 'policy',
          subjectId: name,
          version,
          ...changedFields<PolicyRow>({ outside, outsideCoded, cannotSay }, row),
          reason,
          meaning: 'approved',
        });
        return { ...before, ...row, version };
      });
    },
  };
}

function tableOf(changed: readonly ChangedRow[]): PolicyTable {
  const rows = new Map(changed.map(({ name, row }) => [name, row]));
  const merged = <Variable extends string>(
    subject: keyof PolicyTable,
    start: Readonly<Record<Variable, PolicyRow>>,
  ) =>
    Object.fromEntries(
      Object.entries<PolicyRow>(start).map(([variable, row]) => [
        variable,
        rows.get(`${subject}.${variable}`) ?? row,
      ]),
    ) as Record<Variable, PolicyRow>;
  return {
    procedure: merged<FitVariable>('procedure', startingPolicy.procedure),
    person: merged<PersonVariable>('person', startingPolicy.person),
  };
}

function linesOf(changed: readonly ChangedRow[]): PolicyLine[] {
  const table = tableOf(changed);
  const versions = new Map(changed.map(({ name, version }) => [name, version]));
  const procedure = fitVariables.map((key): PolicyLine => ({
    ...{ subject: 'procedure', key, variable: fitVariableWord(key) },
    ...table.procedure[key],
    least: { ...policyFloor({ subject: 'procedure', variable: key }) },
    version: versions.get(`procedure.${key}`) ?? 1,
  }));
  const person = personVariables.map((key): PolicyLine => ({
    ...{ subject: 'person', key, variable: personVariableWord(key) },
    ...table.person[key],
    least: { ...policyFloor({ subject: 'person', variable: key }) },
    version: versions.get(`person.${key}`) ?? 1,
  }));
  return [...procedure, ...person];
}

function lineNamed(lines: readonly PolicyLine[], name: string): PolicyLine | undefined {
  return lines.find(({ subject, key }) => `${subject}.${key}` === name);
}

const answerWords: Readonly<Record<keyof PolicyRow, string>> = {
  outside: 'outside',
  outsideCoded: 'outside on a coded part',
  cannotSay: 'cannot say',
};
const strengthWords = { pass: 'pass', tell: 'tell', gate: 'gate', refuse: 'refuse' } as const;

function refuseLax(line: PolicyLine, row: PolicyRow): void {
  const { least, variable } = line;
  const lax = laxAnswers(row, least);
  if (lax.length === 0) return;
  const words = lax
    .map((answer) => `"${answerWords[answer]}" at least ${strengthWords[least[answer]]}`)
    .join(', ');
  throw new Refusal(
    'DOES_NOT_FIT',
    `${variable} must do this in every shop: ${words}. A rule that protects people and the record can be made stricter, not laxer.`,
    {
      fields: lax.map((answer) => ({
        ...{ field: `body.${answer}`, given: row[answer] },
        allowed: `${strengthWords[least[answer]]} or stricter`,
      })),
      current: line,
    },
  );
}
