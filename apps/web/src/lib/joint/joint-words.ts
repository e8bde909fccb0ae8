import type { ArgumentRefusal, Groove, JointDrawing } from '@tackboard/calc';
import type { Preparation } from '@tackboard/contract';
import { plainNumber } from '../format/number.js';
import { m } from '../paraglide/messages.js';
import { shopUnits } from '$lib/units/shop-units.svelte.js';

const preparationWords = {
  square: m.joint_prep_square,
  singleV: m.joint_prep_singleV,
  doubleV: m.joint_prep_doubleV,
  singleBevel: m.joint_prep_singleBevel,
  doubleBevel: m.joint_prep_doubleBevel,
  singleU: m.joint_prep_singleU,
  singleJ: m.joint_prep_singleJ,
} as const satisfies Record<Groove['preparation'], () => string>;

/** The choices of a preparation; the empty one says that nobody has said it. */
export function preparationChoices(): { value: string; label: string }[] {
  const kinds = Object.entries(preparationWords);
  return [
    { value: '', label: m.joint_prep_none() },
    ...kinds.map(([value, word]) => ({ value, label: word() })),
  ];
}

export function preparationWord(kind: Groove['preparation']): string {
  return preparationWords[kind]();
}

const backingWords = {
  none: m.joint_backing_none,
  metal: m.joint_backing_metal,
  ceramic: m.joint_backing_ceramic,
  fluxOrGas: m.joint_backing_flux,
} as const satisfies Record<Preparation['backing'], () => string>;

export function backingWord(backing: Preparation['backing']): string {
  return backingWords[backing]();
}

export function isPreparation(value: string): value is Groove['preparation'] {
  return Object.hasOwn(preparationWords, value);
}

const argumentWords: Readonly<Record<string, () => string>> = {
  thicknessMm: m.joint_arg_thickness,
  thicknessAMm: m.joint_arg_thickness,
  thicknessBMm: m.joint_arg_thickness,
  legMm: m.joint_arg_leg,
  throatMm: m.joint_arg_throat,
  rootFaceMm: m.joint_arg_root_face,
  includedAngleDeg: m.joint_arg_angle,
  bevelAngleDeg: m.joint_arg_angle,
  rootRadiusMm: m.joint_arg_radius,
  gapMm: m.joint_arg_gap,
  penetrationMm: m.joint_arg_penetration,
  runs: m.joint_arg_runs,
};

/** Why there is no drawing, in a sentence. */
export function refusalWords({ argument, given, allowed }: ArgumentRefusal): string {
  const word = argumentWords[argument]?.() ?? argument;
  const value = typeof given === 'number' ? plainNumber(given, 2) : String(given);
  return m.joint_refused({ argument: word, given: value, allowed });
}

function size(valueMm: number): string {
  return shopUnits.words(valueMm, 'mm', { decimals: 1 });
}

/** The sentences beside a drawing: the drawn size, and what the settings lay where they are on file. */
export function figureLines({ figures }: JointDrawing): string[] {
  const { drawnAreaMm2, drawnThroatMm, drawnLegMm, laidAreaMm2 } = figures;
  const area = plainNumber(drawnAreaMm2, 1);
  const drawn =
    drawnThroatMm === null || drawnLegMm === null
      ? m.joint_groove_drawn({ area })
      : m.joint_fillet_drawn({
          throat: size(drawnThroatMm),
          leg: size(drawnLegMm),
          area,
        });
  if (laidAreaMm2 === null || drawnAreaMm2 === 0) return [drawn];
  return [drawn, laidWords(figures, laidAreaMm2), m.joint_laid_line()];
}

function laidWords(figures: JointDrawing['figures'], laidAreaMm2: number): string {
  const { laidThroatMm, laidLegMm, laidFillMm, drawnAreaMm2 } = figures;
  const words = {
    area: plainNumber(laidAreaMm2, 1),
    share: plainNumber((laidAreaMm2 / drawnAreaMm2) * 100, 0),
  };
  if (laidThroatMm !== null && laidLegMm !== null) {
    const sizes = { throat: size(laidThroatMm), leg: size(laidLegMm) };
    return m.joint_fillet_laid({ ...words, ...sizes });
  }
  return laidFillMm === null
    ? m.joint_groove_over(words)
    : m.joint_groove_filled({ ...words, fill: size(laidFillMm) });
}
