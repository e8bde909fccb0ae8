import type { AskedSettings } from '@tackboard/calc';
import { expect, it } from 'vitest';
import { fieldOf, numberShown, unitShown } from '../format/amount.js';
import { questionLines } from './setting-words.js';

const labels: Record<string, string> = {
  currentA: 'Current',
  voltageV: 'Voltage',
  travelMmMin: 'Travel',
  wireDiameterMm: 'Wire diameter',
};
const stored: Record<string, string> = {
  currentA: 'A',
  voltageV: 'V',
  travelMmMin: 'mm/min',
  wireDiameterMm: 'mm',
};
/** A cell whose dial is set in cm/min. */
const dial = 'cm/min';

function asked(settings: AskedSettings): string[] {
  const amountOf = (key: string, value: number) => {
    const unit = stored[key] ?? '';
    return `${numberShown(value, unit, 'metric', { dial })} ${unitShown(unit, 'metric', dial)}`;
  };
  const travel = fieldOf('mm/min', 'metric', dial);
  return questionLines(settings, {
    labelOf: (key) => labels[key] ?? key,
    amountOf,
    typedIn: travel === null ? {} : { travelMmMin: travel.unit },
  });
}

/** What a welder typed at that cell, and the question it is met with; 52 cm/min is like any other travel. */
it.each<[typed: string, settings: AskedSettings, questions: string[]]>([
  ['52', { travelMmMin: 520 }, []],
  [
    '0,52',
    { travelMmMin: 5.2 },
    [
      'Travel 0.52 cm/min – looks like metres per minute. Meant: Travel 52 cm/min? Nothing is changed.',
    ],
  ],
  [
    '520',
    { travelMmMin: 5200 },
    [
      'Travel 520 cm/min – ten times what is usual. Meant: Travel 52 cm/min? Nothing is changed.',
      'Travel 520 cm/min – looks like millimetres per minute. Meant: Travel 52 cm/min? Nothing is changed.',
    ],
  ],
  [
    '255 V and 26.5 A',
    { voltageV: 255, currentA: 26.5 },
    [
      'Current 26.5 A, Voltage 255 V – volts and amps look swapped. Meant: Current 255 A, Voltage 26.5 V? Nothing is changed.',
    ],
  ],
  [
    'wire 12',
    { wireDiameterMm: 12 },
    [
      'Wire diameter 12 mm – ten times what is usual. Meant: Wire diameter 1.2 mm? Nothing is changed.',
    ],
  ],
])(
  'asks about %s in a sentence, with what was given and what may be meant',
  (_typed, settings, questions) => {
    expect(asked(Object.freeze(settings))).toEqual(questions);
  },
);
