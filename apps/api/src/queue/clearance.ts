import type { Clearer, FitAnswer, ReadyLine } from '@tackboard/contract';

type Judged = Pick<ReadyLine, 'rule' | 'strength' | 'overriddenBy'>;

/** Who can clear a line, by its rule: the roles of the routes by which it is done. Fit is the coordinator's. */
const clearers: Readonly<Record<string, Clearer>> = {
  kit: 'office',
  setUp: 'office',
  fixture: 'office',
  program: 'office',
  wps: 'qa',
  wireLoaded: 'welder',
  gasLoaded: 'welder',
  wireCertificate: 'welder',
  feeder: 'welder',
  holdPoint: 'qa',
  toolPoint: 'welder',
  witnessPoint: 'qa',
  quarantine: 'qa',
};

/** Lines that only tell something to do later; nothing is missing yet. */
const reminders: ReadonlySet<string> = new Set(['holdPoint', 'witnessPoint']);
/** Lines that tell because nothing is on file to judge by. */
const unknowns: ReadonlySet<string> = new Set(['wps', 'setUp']);

/** Clear, not clear or not to be said, and who can clear it. */
export function clearanceOf(
  line: Judged,
  fit: Pick<FitAnswer, 'welds'>,
): Pick<ReadyLine, 'state' | 'clearedBy'> {
  const { rule, strength, overriddenBy } = line;
  const reminds = strength === 'tell' && reminders.has(rule);
  if (strength === 'pass' || overriddenBy !== null || reminds) {
    return { state: 'clear', clearedBy: null };
  }
  const judged = fit.welds.flatMap(({ lines }) =>
    lines.filter(({ variable }) => variable === rule),
  );
  const onlyUnsaid = judged.length > 0 && judged.every(({ result }) => result !== 'outside');
  const unsaid = onlyUnsaid || (strength === 'tell' && unknowns.has(rule));
  return { state: unsaid ? 'cannotSay' : 'notClear', clearedBy: clearers[rule] ?? 'coordinator' };
}
