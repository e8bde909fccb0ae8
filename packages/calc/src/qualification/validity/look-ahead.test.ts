import { expect, it } from 'vitest';
import { lookAhead } from './look-ahead.js';

const day = '2026-10-05';
const item = (id: string, lastDay: string | null) => ({ id, lastDay });

// Invented items; how far ahead is looked is the shop's own rule.
it('independent: names what lapses within 90, 60 and 30 days, soonest first', () => {
  const { lapses } = lookAhead({
    day,
    jobs: [],
    items: [
      item('ninety-one', '2027-01-04'),
      item('ninety', '2027-01-03'),
      item('sixty', '2026-12-04'),
      item('thirty', '2026-11-04'),
      item('today', '2026-10-05'),
      item('past', '2026-10-04'),
      item('open', null),
    ],
  });
  expect(lapses.map(({ id, within, daysLeft }) => [id, within, daysLeft])).toEqual([
    ['past', 'lapsed', -1],
    ['today', 30, 0],
    ['thirty', 30, 30],
    ['sixty', 60, 60],
    ['ninety', 90, 90],
  ]);
});

it('independent: names the jobs a lapse would stop: planned after it, with nothing else to carry them', () => {
  const items = [item('O05', '2026-10-20'), item('O03', '2027-02-12'), item('W07', '2026-10-20')];
  const jobs = [
    { id: 'before', plannedOn: '2026-10-20', needs: [['W07']] },
    { id: 'after', plannedOn: '2026-10-21', needs: [['W07']] },
    { id: 'two can', plannedOn: '2026-10-21', needs: [['O05', 'O03']] },
    { id: 'both lapse', plannedOn: '2026-10-21', needs: [['O05', 'W07'], ['O03']] },
  ];
  const { lapses } = lookAhead({ day, items, jobs });
  expect(lapses.map(({ id, stops }) => [id, stops])).toEqual([
    ['O05', ['both lapse']],
    ['W07', ['after', 'both lapse']],
  ]);
});

it('never takes an item with an unreadable day as holding', () => {
  const jobs = [{ id: 'j', plannedOn: '2026-11-01', needs: [['odd', 'W07']] }];
  const found = lookAhead({ day, items: [item('odd', '31 Oct'), item('W07', '2026-10-31')], jobs });
  expect(found.unreadable).toEqual(['odd']);
  expect(found.lapses[0]?.stops).toEqual(['j']);
});
