import { jointOfWeld, laidAreaOf } from '@tackboard/calc';
import type { SetUp, Weld } from '@tackboard/contract';
import type { Content } from 'pdfmake/interfaces.js';
import { table } from './blocks.js';
import { jointPicture } from './pictures.js';
import { amount, listed, weldWords } from './words.js';

/** The weld list with the procedure that each weld is made by. */
export function weldTable(welds: readonly Weld[], procedureOf: (weld: Weld) => string): Content {
  return table(
    [
      { title: 'Weld', width: 28 },
      { title: 'Size', width: 84 },
      { title: 'Joint', width: 84 },
      { title: 'Thickness', width: 62 },
      { title: 'Material', width: 78 },
      { title: 'Step', width: 26 },
      { title: 'WPS', width: '*' },
    ],
    welds.map((weld) => [
      String(weld.number),
      weldWords(weld),
      `${weld.jointType}, ${weld.position}, level ${weld.qualityLevel}`,
      `${amount(weld.thicknessAMm, 'mm')} / ${amount(weld.thicknessBMm, 'mm')}`,
      listed(...new Set([weld.materialA, weld.materialB])) ?? '',
      String(weld.stepNumber),
      listed(procedureOf(weld), weld.notes) ?? '',
    ]),
  );
}

/** The joints to scale; the preparation of a butt weld is on the drawing, not on the weld list. */
export function weldPictures(welds: readonly Weld[], setUp: SetUp): Content[] {
  return welds.map((weld) => {
    const butt = weld.jointType === 'butt';
    return jointPicture(butt ? null : jointOfWeld(weld, null), {
      title: `Weld ${weld.number}, ${weldWords(weld)}`,
      laidAreaMm2: laidAreaOf(setUp),
    });
  });
}
