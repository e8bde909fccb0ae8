import type {
  arcEnergy,
  arcTime,
  depositedMass,
  filletArea,
  holeArea,
  throatFromSettings,
} from '@tackboard/calc';
import { plainNumber } from '../format/number.js';
import { m } from '../paraglide/messages.js';
import { workedFigure, type Answered, type WorkedFigure } from './worked-figure.js';

const mmPerMetre = 1000;

type Area = Answered<ReturnType<typeof filletArea>>;

export function explainedFilletArea(result: Area): WorkedFigure {
  const { inputs } = result;
  const value = plainNumber(result.value);
  return workedFigure(result, {
    name: m.method_fillet_area(),
    page: 'weld-volume',
    formula:
      'throatMm' in inputs
        ? m.method_fillet_area_throat({ throat: plainNumber(inputs.throatMm), value })
        : inputs.secondLegMm === undefined
          ? m.method_fillet_area_leg({ leg: plainNumber(inputs.legMm), value })
          : m.method_fillet_area_legs({
              leg: plainNumber(inputs.legMm),
              second: plainNumber(inputs.secondLegMm),
              value,
            }),
  });
}

export function explainedHoleArea(result: Answered<ReturnType<typeof holeArea>>): WorkedFigure {
  const { widthMm, lengthMm } = result.inputs;
  return workedFigure(result, {
    name: m.method_hole_area(),
    page: 'weld-volume',
    formula: m.method_hole_area_formula({
      width: plainNumber(widthMm),
      length: plainNumber(lengthMm),
      value: plainNumber(result.value),
    }),
  });
}

export function explainedMass(result: Answered<ReturnType<typeof depositedMass>>): WorkedFigure {
  const { areaMm2, lengthMm, densityKgM3 } = result.inputs;
  return workedFigure(result, {
    name: m.method_mass(),
    page: 'weld-volume',
    formula: m.method_mass_formula({
      area: plainNumber(areaMm2),
      length: plainNumber(lengthMm),
      density: plainNumber(densityKgM3),
      value: plainNumber(result.value, 5),
    }),
  });
}

export function explainedArcTime(result: Answered<ReturnType<typeof arcTime>>): WorkedFigure {
  const { lengthMm, travelMmMin } = result.inputs;
  return workedFigure(result, {
    name: m.method_arc_time(),
    page: 'production-times',
    formula: m.method_arc_time_formula({
      length: plainNumber(lengthMm),
      travel: plainNumber(travelMmMin),
      value: plainNumber(result.value),
    }),
  });
}

export function explainedLaid(
  result: Answered<ReturnType<typeof throatFromSettings>>,
): WorkedFigure {
  const { wireDiameterMm, wireSpeedMMin, efficiency, travelMmMin } = result.inputs;
  return workedFigure(result, {
    name: m.method_laid(),
    page: 'deposition',
    formula: m.method_laid_formula({
      diameter: plainNumber(wireDiameterMm),
      wire: plainNumber(wireSpeedMMin * mmPerMetre),
      efficiency: plainNumber(efficiency),
      travel: plainNumber(travelMmMin),
      area: plainNumber(result.parts.areaMm2),
      leg: plainNumber(result.parts.legMm),
      value: plainNumber(result.value),
    }),
  });
}

export function explainedArcEnergy(result: Answered<ReturnType<typeof arcEnergy>>): WorkedFigure {
  const { currentA, voltageV, travelMmMin } = result.inputs;
  return workedFigure(result, {
    name: m.method_arc_energy(),
    page: 'heat-input',
    formula: m.method_arc_energy_formula({
      voltage: plainNumber(voltageV),
      current: plainNumber(currentA),
      travel: plainNumber(travelMmMin),
      value: plainNumber(result.value),
    }),
  });
}
