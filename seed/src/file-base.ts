import { systemActor } from '@tackboard/api';
import { demoCells, weekPattern } from './shop/cells.js';
import { demoItems, demoLots } from './shop/consumables.js';
import { demoCertificates, demoPeople, type DemoCertificate } from './shop/people.js';
import { by, got, type ShopFile } from './shop-file.js';

export const demoPassword = 'tack weld monday';

/** People, cells with calendars, consumables: what was there before the first order. */
export async function filePeopleAndCells(shop: ShopFile): Promise<void> {
  const { services } = shop.context;
  const [first, ...others] = demoPeople;
  if (first === undefined) throw new Error('A shop has at least one person.');
  const { view } = await services.people.firstRun(systemActor, {
    code: first.code,
    name: first.name,
    password: demoPassword,
  });
  if (view.person === null) throw new Error('The first run signs the manager in.');
  shop.people.set(first.code, view.person);
  for (const { code, name, role, coordinator = false, language = 'en' } of others) {
    const person = await services.people.add(by(shop, 'M01'), {
      code,
      name,
      role,
      coordinator,
      language,
    });
    shop.people.set(code, person);
    if (role !== 'welder')
      await services.people.setPassword(by(shop, 'M01'), person.id, demoPassword);
  }
  for (const input of demoCells) {
    const cell = await services.cells.add(by(shop, 'M01'), input);
    const shifts = weekPattern(input.kind);
    shop.cells.set(
      input.code,
      await services.cells.setCalendar(by(shop, 'M01'), cell.id, {
        shifts,
        dayChanges: [],
        expectedVersion: cell.version,
        reason: null,
      }),
    );
  }
}

export async function fileConsumables(shop: ShopFile, receivedOn: string): Promise<void> {
  const { services } = shop.context;
  const office = by(shop, 'S02');
  for (const input of demoItems)
    shop.items.set(input.name, await services.consumables.addItem(office, input));
  for (const { item, number, certificate, amount } of demoLots) {
    const lot = await services.consumables.addLot(office, {
      itemId: got(shop.items, item).id,
      number,
      receivedOn,
      certificate,
      receivedAmount: amount,
    });
    shop.lots.set(number, { id: lot.id, item });
  }
}

/** Certificates as printed, with the confirmation that was the latest one when the story begins. */
export async function fileCertificates(shop: ShopFile, storyBegins: string): Promise<void> {
  const { services } = shop.context;
  const { plus, today } = shop.days;
  for (const [index, one] of demoCertificates.entries()) {
    const certificate = await services.people.addCertificate(
      by(shop, 'Q02'),
      got(shop.people, one.person).id,
      {
        kind: one.kind,
        number: `${one.person}-${one.process}-${String(index + 1).padStart(2, '0')}`,
        code: one.code,
        edition: one.edition,
        process: one.process,
        cellId: one.cell === null ? null : got(shop.cells, one.cell).id,
        jointTypes: [...one.jointTypes],
        positions: [...one.positions],
        materialGroups: [],
        fillerGroups: [...one.fillerGroups],
        thicknessMm: { min: one.thicknessMinMm, max: one.thicknessMaxMm },
        diameterMm: null,
        testedOn: plus(today, -one.testedDaysAgo),
        validUntil: plus(today, 3 * 365 - one.testedDaysAgo),
        renewalRoute: one.kind === 'welder' ? '9.3 a: new test every three years' : null,
        examiner: 'Works examiner',
        functionTestOn: one.kind === 'operator' ? plus(today, -one.testedDaysAgo) : null,
      },
    );
    for (const confirmedOn of confirmationsBefore(one, storyBegins, shop))
      await confirm(shop, certificate.id, confirmedOn);
  }
}

/** Those of the twelve weeks: signed at the end of the story, as late entries that show both dates. */
export async function fileLaterConfirmations(shop: ShopFile, storyBegins: string): Promise<void> {
  const { certificates } = await shop.context.services.people.certificates();
  for (const [index, one] of demoCertificates.entries()) {
    const confirmedOn = latest(one, shop);
    const number = `${one.person}-${one.process}-${String(index + 1).padStart(2, '0')}`;
    const certificate = certificates.find((row) => row.number === number);
    if (certificate !== undefined && confirmedOn !== null && confirmedOn >= storyBegins)
      await confirm(shop, certificate.id, confirmedOn);
  }
}

function latest(one: DemoCertificate, { days }: ShopFile): string | null {
  return one.confirmedDaysAgo === null ? null : days.plus(days.today, -one.confirmedDaysAgo);
}

function confirmationsBefore(one: DemoCertificate, storyBegins: string, shop: ShopFile): string[] {
  const last = latest(one, shop);
  if (last === null) return [];
  return last < storyBegins ? [last] : [shop.days.plus(storyBegins, -30)];
}

async function confirm(shop: ShopFile, certificateId: string, confirmedOn: string): Promise<void> {
  await shop.context.services.people.confirmCertificate(by(shop, 'C01'), certificateId, {
    confirmedOn,
    evidence: 'Jobs of the last six months seen at the cell, results in the job records',
  });
}
