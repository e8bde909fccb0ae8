/** Values of a list that are names inside the rules; designations, positions and letters speak for themselves. */
const words: Readonly<Record<string, string>> = {
  partlyMechanised: 'partly mechanised',
  fullyMechanised: 'fully mechanised',
  tButt: 'butt at a T',
  partialButt: 'butt of partial penetration',
  single: 'single run',
  multi: 'several runs',
  oneSide: 'one side without backing',
  oneSideBacked: 'one side on backing',
  bothSides: 'both sides without back gouging',
  bothSidesGouged: 'both sides with back gouging',
};

/** The values of a range rule as a person reads them, e.g. `partlyMechanised` as "partly mechanised". */
export function valueWords(values: readonly string[]): string {
  return values.map((value) => words[value] ?? value).join(', ');
}
