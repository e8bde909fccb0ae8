import type { Wpqr } from '@tackboard/contract';

type Piece = Wpqr['testPiece'];
type Values = Wpqr['testedValues'];

/** What the range rules ask beyond the plain measures; an empty field is not stated and leaves the rule unsaid. */
export const numberFields = [
  { key: 'depositedMm', unit: 'mm' },
  { key: 'maxPassMm', unit: 'mm' },
  { key: 'branchAngleDeg', unit: '°' },
  { key: 'yieldBMPa', unit: 'MPa' },
  { key: 'co2Pct', unit: '%' },
  { key: 'wireDiameterMm', unit: 'mm' },
  { key: 'gasFlowLMin', unit: 'l/min' },
] as const satisfies readonly { key: keyof Piece | keyof Values; unit: string }[];

export const textKeys = ['materialGroupB', 'fillerGroup', 'currentType'] as const;

export const yesNoKeys = [
  ...(['impactRequired', 'impactTested', 'hardnessRequired'] as const),
  ...(['backed', 'gouged', 'squareGroove'] as const),
] as const;

type NumberKey = (typeof numberFields)[number]['key'];
type TextKey = (typeof textKeys)[number];
type YesNoKey = (typeof yesNoKeys)[number];

export type PieceMore = Record<NumberKey, number | null> &
  Record<TextKey, string> &
  Record<YesNoKey, string> & { product: string };

type Stated = Partial<
  Record<NumberKey, number | undefined> &
    Record<TextKey, string | undefined> &
    Record<YesNoKey, boolean | undefined> & { product: Piece['product'] }
>;

/** What stands in the fields; yes, no and not stated are three things. */
export function pieceMore(piece?: Piece, values?: Values): PieceMore {
  const stated: Stated = { ...piece, ...values };
  const word = (value: boolean | undefined) => (value === undefined ? '' : value ? 'yes' : 'no');
  return {
    ...(Object.fromEntries(numberFields.map(({ key }) => [key, stated[key] ?? null])) as Record<
      NumberKey,
      number | null
    >),
    ...(Object.fromEntries(textKeys.map((key) => [key, stated[key] ?? ''])) as Record<
      TextKey,
      string
    >),
    ...(Object.fromEntries(yesNoKeys.map((key) => [key, word(stated[key])])) as Record<
      YesNoKey,
      string
    >),
    product: stated.product ?? '',
  };
}

/** What is sent: fields that say nothing are left out. */
export function statedMore(more: PieceMore): {
  piece: Partial<Piece>;
  values: Partial<Values>;
} {
  const { product, wireDiameterMm, gasFlowLMin, ...rest } = more;
  const entries = Object.entries(rest).flatMap(([key, value]): [string, unknown][] => {
    if (value === null || (typeof value === 'string' && value.trim() === '')) return [];
    const isYesNo = (yesNoKeys as readonly string[]).includes(key);
    return [[key, isYesNo ? value === 'yes' : value]];
  });
  const kind = product === 'plate' || product === 'pipe' ? { product } : {};
  return {
    piece: { ...(Object.fromEntries(entries) as Partial<Piece>), ...kind } as Partial<Piece>,
    values: {
      ...(wireDiameterMm === null ? {} : { wireDiameterMm }),
      ...(gasFlowLMin === null ? {} : { gasFlowLMin }),
    },
  };
}
