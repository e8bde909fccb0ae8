type Cover = Readonly<Record<string, readonly string[]>>;

/** Butt welds: positions a test covers. ISO 9606-1:2012, Table 9. */
export const buttPositions: Cover = {
  PA: ['PA'],
  PC: ['PA', 'PC'],
  PE: ['PA', 'PC', 'PE'],
  PF: ['PA', 'PF'],
  PG: ['PG'],
  PH: ['PA', 'PE', 'PF', 'PH'],
  PJ: ['PA', 'PE', 'PG', 'PJ'],
  'H-L045': ['PA', 'PC', 'PE', 'PF', 'PH', 'H-L045'],
  'J-L045': ['PA', 'PC', 'PE', 'PG', 'PJ', 'J-L045'],
};

/** Fillet welds. PC as a covered position is not confirmed. ISO 9606-1:2012, Table 10. */
export const filletPositions: Cover = {
  PA: ['PA'],
  PB: ['PA', 'PB'],
  PC: ['PA', 'PB', 'PC'],
  PD: ['PA', 'PB', 'PD', 'PE'],
  PE: ['PA', 'PB', 'PD', 'PE'],
  PF: ['PA', 'PB', 'PF'],
  PG: ['PG'],
  PH: ['PA', 'PB', 'PD', 'PE', 'PF', 'PH'],
  PJ: ['PA', 'PB', 'PD', 'PE', 'PG', 'PJ'],
};
export const filletPositionsUnsure: Cover = { PD: ['PC'], PE: ['PC'], PH: ['PC'] };

/** Processes of ISO 4063 one test covers besides its own; solid and metal-cored wire stand for each other. */
export const processes: Cover = {
  '131': ['131', '133'],
  '133': ['131', '133'],
  '135': ['135', '138'],
  '138': ['135', '138'],
  '121': ['121', '125'],
  '125': ['121', '125'],
  '141': ['141', '142', '143', '145'],
};

/** A welder who was tested in short circuit is covered in every transfer; the others cover all but that. */
export const transfers: Cover = {
  D: ['D', 'G', 'S', 'P'],
  G: ['G', 'S', 'P'],
  S: ['G', 'S', 'P'],
  P: ['G', 'S', 'P'],
};

export const fillerGroups: Cover = {
  FM1: ['FM1', 'FM2'],
  FM2: ['FM1', 'FM2'],
  FM3: ['FM1', 'FM2', 'FM3'],
  FM4: ['FM1', 'FM2', 'FM3', 'FM4'],
  FM5: ['FM5'],
  FM6: ['FM5', 'FM6'],
};

const rutile = ['A', 'RA', 'RB', 'RC', 'RR', 'R'];
/** Kinds of covering of process 111. */
export const coverings: Cover = {
  ...Object.fromEntries(rutile.map((kind) => [kind, rutile])),
  B: [...rutile, 'B'],
  C: ['C'],
};
/** Wires and rods. With filler covers without (nm), not the reverse. */
export const wires: Cover = { S: ['S', 'M', 'nm'], M: ['S', 'M', 'nm'], nm: ['nm'] };

/** One side or both, with or without backing; layers of a fillet. */
export const weldDetails: Cover = {
  'ss nb': ['ss nb', 'ss mb', 'bs', 'ss gb', 'ss fb'],
  'ss mb': ['ss mb', 'bs'],
  bs: ['ss mb', 'bs'],
  'ss gb': ['ss gb', 'ss mb', 'bs'],
  'ss fb': ['ss fb', 'ss mb', 'bs'],
  sl: ['sl'],
  ml: ['sl', 'ml'],
};
