import { preparedGroove } from '@tackboard/calc';
import type { Range, Wps, WpsDetails } from '@tackboard/contract';
import type { Content } from 'pdfmake/interfaces.js';
import { fact, heading, table } from './blocks.js';
import { jointPicture } from './pictures.js';
import { amount, rangeWords } from './words.js';

const limits = (range: Range | null, unit: string) => rangeWords(range, unit);
const text = (name: string, value: string): Content => fact([name, value === '' ? null : value]);

const sides = { one: 'one side', both: 'both sides' } as const;
const beads = { stringer: 'stringer beads', weave: 'weaving' } as const;
const currents = {
  'DC+': 'direct, electrode at plus (DC+)',
  'DC-': 'direct, electrode at minus (DC-)',
  AC: 'alternating (AC)',
} as const;
const kinds = {
  square: 'square edges',
  singleV: 'single V',
  doubleV: 'double V',
  singleBevel: 'single bevel',
  doubleBevel: 'double bevel',
  singleU: 'single U',
  singleJ: 'single J',
} as const;
const backings = {
  none: 'no backing',
  metal: 'metal backing',
  ceramic: 'ceramic backing',
  fluxOrGas: 'flux or gas backing',
} as const;

/** The groove of the procedure in words and to scale; nothing where it states none. */
export function grooveBlocks({ groove }: WpsDetails): Content[] {
  if (groove === null) return [];
  return [
    fact(['Groove', grooveWords(groove)]),
    jointPicture({ form: 'groove', groove: preparedGroove(groove) }, { title: 'Groove' }),
  ];
}

function grooveWords(groove: NonNullable<WpsDetails['groove']>): string {
  const { thicknessMm, depthMm, preparation } = groove;
  const { kind, gapMm, rootFaceMm, angleDeg, rootRadiusMm, capHeightMm, backing } = preparation;
  const edges = kind === 'square' ? [] : [`root face ${rootFaceMm} mm`, `angle ${angleDeg}°`];
  const radius = kind === 'singleU' || kind === 'singleJ' ? [`root radius ${rootRadiusMm} mm`] : [];
  return [
    `${kinds[kind]}, plate ${thicknessMm} mm`,
    ...(depthMm === null ? [] : [`depth ${depthMm} mm`]),
    `gap ${gapMm} mm`,
    ...edges,
    ...radius,
    `cap ${capHeightMm} mm`,
    backings[backing],
  ].join(', ');
}

export function preparationFacts(details: WpsDetails): Content[] {
  return [
    text('Cutting and cleaning', details.cleaning),
    text('Jigs and tacks', details.tacking),
    fact(['Welded from', details.sides && sides[details.sides]]),
    text('Backing', details.backing),
    text('Back gouging', details.backGouging),
  ];
}

export function techniqueFacts(details: WpsDetails): Content[] {
  return [
    text('Run sequence', details.runSequence),
    fact(['Stringer or weave', details.bead && beads[details.bead]]),
    fact(['Weave at most', amount(details.weaveMaxMm, 'mm')]),
    text('Torch angle', details.torchAngle),
  ];
}

export function fillerFacts(details: WpsDetails): Content[] {
  return [
    text('Maker and name', details.fillerMake),
    text('Drying and keeping', details.fillerHandling),
  ];
}

export function currentFacts(details: WpsDetails): Content[] {
  return [
    fact(['Current and polarity', details.currentKind && currents[details.currentKind]]),
    text('Pulse', details.pulse),
    text('Arc mode', details.transfer),
    ...(details.tungsten === '' && details.tungstenMm === null
      ? []
      : [
          text('Tungsten electrode (ISO 6848)', details.tungsten),
          fact(['Tungsten diameter', amount(details.tungstenMm, 'mm')]),
        ]),
  ];
}

export function travelFacts(details: WpsDetails): Content[] {
  return [fact(['Contact tip to work', limits(details.contactTipDistanceMm, 'mm')])];
}

export function stillHeatFacts(details: WpsDetails): Content[] {
  return [fact(['Kept while work stands still', amount(details.preheatKeepC, '°C')])];
}

export function postHeatFacts(details: WpsDetails): Content[] {
  const { postHeatC, postHeatMin, heatTreatment, heatTreatmentC, heatTreatmentMin } = details;
  const held = postHeatC === null ? null : `${postHeatC} °C for ${postHeatMin ?? '–'} min`;
  return [
    fact(['Post-heating for hydrogen', held]),
    text('Heat treatment', heatTreatment),
    fact(['Temperature', limits(heatTreatmentC, '°C')]),
    fact(['Time', amount(heatTreatmentMin, 'min')]),
  ];
}

export function gasFacts(details: WpsDetails): Content[] {
  return [
    fact(['Gas flow', limits(details.gasFlowLMin, 'l/min')]),
    fact(['Nozzle', amount(details.nozzleMm, 'mm')]),
    text('Gas on the back', details.backingGas),
    fact(['Flow on the back', limits(details.backingGasFlowLMin, 'l/min')]),
  ];
}

const variables = {
  backing: 'Sides and backing',
  currentType: 'Kind of current',
  transfer: 'Arc mode',
} as const;
const answers = { agrees: 'Agrees', ask: 'Ask', cannotSay: 'Cannot say' } as const;

/** Essential variables without a range, held against the rule; the signed record counts. */
export function comparisonRows({ comparisons }: Wps): Content[] {
  if (comparisons.length === 0) return [];
  return [
    heading('Held against the tests behind it'),
    table(
      [
        { title: 'Variable', width: '*' },
        { title: 'Answer', width: '*' },
        { title: 'Record and clause', width: '*' },
      ],
      comparisons.map(({ variable, answer, words, wpqrNumber, rule }) => [
        variables[variable],
        `${answers[answer]}: ${words}`,
        `${wpqrNumber}, ${rule}`,
      ]),
    ),
  ];
}
