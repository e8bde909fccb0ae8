import { randomBytes } from 'node:crypto';
import type { Dice } from './dice.js';
import { printOf, type WriteRow } from './rows.js';

export interface ShopCell {
  readonly id: string;
  readonly code: string;
  readonly kind: 'booth' | 'robot';
  readonly tabletId: string;
}

interface ShopPerson {
  readonly id: string;
  readonly code: string;
  readonly role: 'office' | 'welder' | 'qa' | 'manager';
}

/** A signed-in caller: the cookies that a browser would hold. */
interface Caller {
  readonly person: ShopPerson;
  readonly cookie: string;
}

export interface ShopBase {
  readonly cells: readonly ShopCell[];
  readonly welders: readonly ShopPerson[];
  readonly manager: Caller;
  /** At the first booth, by PIN. */
  readonly welder: Caller;
}

interface Making {
  readonly write: WriteRow;
  readonly dice: Dice;
  readonly opened: Date;
  readonly now: Date;
}

const roles = ['manager', 'office', 'office', 'qa', 'qa', ...Array<'welder'>(9).fill('welder')];

/** Cells with shifts and tablets, people with certificates and sessions. */
export function writeBase(making: Making, count: number): ShopBase {
  const cellKinds = Array.from({ length: count }, (_, at) =>
    at < count / 2 ? ('booth' as const) : ('robot' as const),
  );
  const people = roles.map((role, at) => writePerson(making, role as ShopPerson['role'], at));
  const [manager] = people;
  const cells = cellKinds.map((kind, at) => writeCell(making, kind, at));
  const welders = people.filter(({ role }) => role === 'welder');
  for (const welder of welders) writeCertificates(making, welder, cells);
  const [first] = welders;
  const [booth] = cells;
  if (manager === undefined || first === undefined || booth === undefined)
    throw new Error('A shop has a manager, a welder and a cell.');
  return {
    cells,
    welders,
    manager: { person: manager, cookie: writeSession(making, manager, null) },
    welder: { person: first, cookie: writeSession(making, first, booth) },
  };
}

function writePerson(
  { write, dice, opened }: Making,
  role: ShopPerson['role'],
  at: number,
): ShopPerson {
  const code = `${role.slice(0, 1).toUpperCase()}${String(at + 1).padStart(2, '0')}`;
  const person = { id: dice.id(opened), code, role };
  const name = `Person ${at + 1}`;
  write('Person', { ...person, name, coordinator: at === 3, createdAt: opened });
  return person;
}

function writeCell({ write, dice, opened }: Making, kind: ShopCell['kind'], at: number): ShopCell {
  const robot = kind === 'robot';
  const code = `${robot ? 'R' : 'M'}${at + 1}`;
  const id = dice.id(opened);
  write('Cell', {
    ...{ id, code, name: `Cell ${code}`, kind, processes: ['135'], createdAt: opened },
    mechanisation: robot ? 'fullyMechanised' : 'partlyMechanised',
    ...{ stations: robot ? 2 : 1, sourceRatingA: 400, sourceRatingPct: 60 },
    ...{ torchRatingA: 350, torchRatingPct: 60, torchMaxA: 400, torchRatingGas: 'M21' },
  });
  for (let weekday = 1; weekday <= 5; weekday += 1)
    for (const [startTime, endTime] of [
      ['06:00', '14:00'],
      ['14:00', '22:00'],
    ] as const)
      write('Shift', {
        ...{ id: dice.id(opened), cellId: id, weekday, startTime, endTime },
        ...{ breakMin: 30, staffed: true },
      });
  const tabletId = dice.id(opened);
  write('Tablet', {
    ...{ id: tabletId, name: `Tablet ${code}`, cellId: id, registeredAt: opened },
    ...{ registeredBy: id, tokenHash: printOf(tabletToken(code)) },
  });
  return { id, code, kind, tabletId };
}

const run = randomBytes(24).toString('base64url');
const tabletToken = (cellCode: string) => `tablet-${cellCode}-${run}`;

function writeCertificates(
  { write, dice, opened, now }: Making,
  person: ShopPerson,
  cells: readonly ShopCell[],
): void {
  const robots = cells.filter(({ kind }) => kind === 'robot');
  const kinds = [
    { kind: 'welder', cellId: null },
    ...robots.map(({ id }) => ({ kind: 'operator', cellId: id })),
  ];
  for (const [at, each] of kinds.entries()) {
    const id = dice.id(opened);
    write('Certificate', {
      ...{ id, personId: person.id, ...each, number: `${person.code}-${at + 1}` },
      ...{ code: each.cellId === null ? 'ISO 9606-1' : 'ISO 14732', edition: '2017' },
      ...{ process: '135', jointTypes: ['fillet'], positions: ['PA', 'PB'] },
      ...{ materialGroups: ['1.1', '1.2'], fillerGroups: ['FM1'] },
      ...{ thicknessMinMm: 3, testedOn: dayOf(opened), validUntil: dayOf(inDays(now, 400)) },
      createdAt: opened,
    });
    write('Confirmation', {
      ...{ id: dice.id(now), certificateId: id, confirmedOn: dayOf(inDays(now, -30)) },
      ...{ enteredAt: inDays(now, -30), confirmedBy: person.id, evidence: 'work seen' },
    });
  }
}

function writeSession(
  { write, dice, now }: Making,
  person: ShopPerson,
  cell: ShopCell | null,
): string {
  const token = randomBytes(32).toString('base64url');
  write('Session', {
    ...{ id: dice.id(now), tokenHash: printOf(token), personId: person.id },
    // Ahead of the clock: a session that was not used for a minute is written anew, which belongs to no one call.
    ...{ tabletId: cell?.tabletId ?? null, startedAt: now, lastUsedAt: inDays(now, 0.5) },
    endsAt: inDays(now, 1),
  });
  const session = `tackboard_session=${token}`;
  return cell === null ? session : `${session}; tackboard_tablet=${tabletToken(cell.code)}`;
}

export function inDays(from: Date, days: number): Date {
  return new Date(from.getTime() + days * 86_400_000);
}

export function dayOf(at: Date): string {
  return at.toISOString().slice(0, 10);
}
