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

/** The joints to scale; a butt weld without its preparation is not drawn as if it were square. */
export function weldPictures(welds: readonly Weld[], setUp: SetUp): Content[] {
  return welds.map((weld) => {
    const unsaid = weld.jointType === 'butt' && weld.preparation === null;
    return jointPicture(unsaid ? null : jointOfWeld(weld, weld.preparation), {
      title: `Weld ${weld.number}, ${weldWords(weld)}`,
      laidAreaMm2: laidAreaOf(setUp),
    });
  });
}
