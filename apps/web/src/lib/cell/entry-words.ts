import type { Entry } from '$lib/offline/commands.js';
import { m } from '$lib/paraglide/messages.js';
import { causeWord, pointWord } from './words.js';
import { shopUnits } from '$lib/units/shop-units.svelte.js';

/** What was pressed and typed, in the words of the buttons. */
export function entryWords(entry: Entry): string {
  switch (entry.kind) {
    case 'start':
      return startWords(entry.body);
    case 'count':
      return countWords(entry.body);
    case 'stop':
      return m.cell_did_stop({ cause: causeWord(entry.body.cause) });
    case 'resume':
      return m.cell_go_on();
    case 'reading':
      return m.cell_did_read({ values: readingWords(entry.body) });
    case 'photo':
      return m.cell_did_photo();
    case 'photoOf':
      return entry.body.subjectType === 'setUp' ? m.photo_set_up() : m.photo_take_fixture();
    case 'note':
      return m.cell_did_note({ text: entry.body.text });
  }
}

type BodyOf<Kind extends Entry['kind']> = Extract<Entry, { readonly kind: Kind }>['body'];

function startWords({ differences = [] }: BodyOf<'start'>): string {
  const points = differences.map(({ point, note }) => `${pointWord(point)}: ${note}`).join('; ');
  return points === '' ? m.start_did() : m.start_did_not({ points });
}

function countWords({ good = 0, rework = 0, scrap = 0 }: BodyOf<'count'>): string {
  return [
    good > 0 ? m.cell_did_good({ count: good }) : '',
    rework > 0 ? m.cell_did_rework({ count: rework }) : '',
    scrap > 0 ? m.cell_did_scrap({ count: scrap }) : '',
  ]
    .filter((words) => words !== '')
    .join(', ');
}

function readingWords(body: BodyOf<'reading'>): string {
  const values = [
    [m.cell_current(), body.currentA, 'A'],
    [m.cell_voltage(), body.voltageV, 'V'],
    [m.cell_wire_speed(), body.wireSpeedMMin, 'm/min'],
    [m.cell_travel(), body.travelMmMin, 'mm/min'],
    [m.cell_preheat(), body.preheatC, '°C'],
    [m.cell_interpass(), body.interpassC, '°C'],
  ] as const;
  return values
    .flatMap(([label, value, unit]) =>
      typeof value === 'number' ? [`${label} ${shopUnits.words(value, unit)}`] : [],
    )
    .join(', ');
}
