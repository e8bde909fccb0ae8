import { jointDrawing, stripScale, svgPath, withinBand, type DrawnJoint } from '@tackboard/calc';
import type { Range } from '@tackboard/contract';
import type { Content } from 'pdfmake/interfaces.js';
import { numberWords } from '../queue/fit-words.js';
import { band, ink, line, metal, soft } from './colours.js';
import { amount, notStated, rangeWords } from './words.js';

interface Strip {
  readonly name: string;
  readonly unit: string;
  /** Null where the procedure states none. */
  readonly range: Range | null;
  readonly set?: number | null;
  /** What was welded in the tests behind the range. */
  readonly tested?: readonly number[];
  /** In figures that are read from a step away. */
  readonly big?: boolean;
}

const stripWidth = 330;

/** One variable as a drawn line: the band of the range, what was tested, and what is set. */
export function rangeStrip(strip: Strip): Content {
  const { name, unit, range, set = null, tested = [], big = false } = strip;
  const words = [
    rangeWords(range, unit) ?? 'no range stated',
    ...(set === null || big ? [] : [`set ${amount(set, unit)}`]),
    ...(tested.length === 0 ? [] : [`tested ${tested.map(numberWords).join(', ')} ${unit}`]),
  ];
  const svg = stripSvg({ min: range?.min ?? null, max: range?.max ?? null, set, readings: tested });
  return {
    unbreakable: true,
    margin: [0, 2, 0, 3],
    stack: [
      {
        columnGap: 6,
        columns: [
          { text: name, width: 118, color: soft },
          ...(big
            ? [{ text: amount(set, unit) ?? notStated, width: 100, bold: true, fontSize: 14 }]
            : []),
          { text: words.join('; '), width: '*', bold: true },
        ],
      },
      ...(svg === null ? [] : [{ svg, width: stripWidth }]),
    ],
  };
}

interface Drawn {
  readonly min: number | null;
  readonly max: number | null;
  readonly set: number | null;
  readonly readings: readonly number[];
}

function stripSvg(drawn: Drawn): string | null {
  const scale = stripScale(drawn);
  if (scale === null) return null;
  const { min, max, set, readings } = drawn;
  const x = (value: number) => (scale.at(value) * stripWidth).toFixed(1);
  const label = (value: number) =>
    `<text x="${x(value)}" y="29" font-size="7" text-anchor="middle" fill="${soft}">${numberWords(value)}</text>`;
  const limit = (value: number) =>
    `<path d="M${x(value)} 5V21" stroke="${ink}" stroke-width="1.2"/>${label(value)}`;
  const from = min === null ? 0 : Number(x(min));
  const to = max === null ? stripWidth : Number(x(max));
  const limits = [...new Set([min, max].filter((value) => value !== null))];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${stripWidth} 31">`,
    `<path d="M0 13H${stripWidth}" stroke="${line}" stroke-width="1"/>`,
    limits.length === 0
      ? ''
      : `<rect x="${from}" y="8" width="${Math.max(to - from, 1)}" height="10" fill="${band}"/>`,
    ...limits.map(limit),
    ...readings.map((value) =>
      withinBand(value, min, max)
        ? `<circle cx="${x(value)}" cy="13" r="2.5" fill="#ffffff" stroke="${ink}"/>`
        : `<path d="M${Number(x(value)) - 3} 10l6 6m0-6l-6 6" stroke="${ink}" stroke-width="1.5"/>`,
    ),
    set === null ? '' : `<path d="M${x(set)} 9l-4-8h8z" fill="${ink}"/>`,
    '</svg>',
  ].join('');
}

/** What the marks of a strip mean, for whoever meets them on paper first. */
export const stripKey =
  'Strips: the band is the range, limits inclusive; a circle was welded in a test behind it; a triangle is what is set; a cross lies outside.';

/** The cross-section to scale with its figures in words; words alone where the sizes make no joint. */
export function jointPicture(
  joint: DrawnJoint | null,
  { title, laidAreaMm2 = null }: { title: string; laidAreaMm2?: number | null },
): Content {
  const result =
    joint === null ? null : jointDrawing({ joint, laidAreaMm2: laidAreaMm2 ?? undefined });
  if (result === null || !result.ok)
    return {
      text: `${title}: no drawing follows from the sizes on file; the signed drawing holds.`,
    };
  const { view, shapes, figures } = result.drawing;
  const thin = Math.max(view.widthMm, view.heightMm) / 220;
  const paths = shapes.map(
    (shape) => `<path d="${svgPath(shape)}" ${lookOf(shape.role, thin)} stroke-linejoin="round"/>`,
  );
  const box = `${view.x} ${view.y} ${view.widthMm} ${view.heightMm}`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${box}">${paths.join('')}</svg>`;
  const fillet = figures.drawnThroatMm !== null && figures.drawnLegMm !== null;
  const size = fillet
    ? `drawn a ${short(figures.drawnThroatMm)} mm, z ${short(figures.drawnLegMm)} mm, `
    : 'drawn ';
  const laid =
    figures.laidAreaMm2 === null
      ? ''
      : ` The settings lay ${short(figures.laidAreaMm2)} mm²${fillet ? `, about a ${short(figures.laidThroatMm)} mm` : ''} in one run (dashed).`;
  return {
    unbreakable: true,
    columnGap: 10,
    margin: [0, 3, 0, 3],
    columns: [
      { svg, fit: [130, 95], width: 135 },
      { text: `${title}: ${size}${short(figures.drawnAreaMm2)} mm².${laid}`, width: '*' },
    ],
  };
}

function short(value: number | null): string {
  return value === null ? '–' : numberWords(Math.round(value * 10) / 10);
}

function lookOf(role: string, thin: number): string {
  const stroke = (colour: string, times: number) =>
    `stroke="${colour}" stroke-width="${(thin * times).toFixed(3)}"`;
  switch (role) {
    case 'part':
      return `fill="${band}" ${stroke(line, 1)}`;
    case 'metal':
      return `fill="${metal}"`;
    case 'laid':
      return `fill="none" ${stroke(ink, 2)} stroke-dasharray="${(thin * 6).toFixed(3)} ${(thin * 4).toFixed(3)}"`;
    case 'preparation':
      return `fill="none" ${stroke(line, 1)}`;
    default:
      return `fill="none" ${stroke('#ffffff', role === 'throat' ? 2 : 1)}`;
  }
}
