import type { SourceId } from '../../sources/index.js';

/**
 * How sure a row is: `high` is confirmed by a second text, `medium` is from memory with good recall, `low` is not
 * sure enough to answer with; it is only shown.
 */
export type Confidence = 'high' | 'medium' | 'low';

export type RangeVariable =
  | 'process'
  | 'mechanisation'
  | 'transfer'
  | 'materialGroup'
  | 'jointType'
  | 'product'
  | 'thickness'
  | 'depositedThickness'
  | 'throat'
  | 'diameter'
  | 'diameterRotating'
  | 'branchAngle'
  | 'runs'
  | 'backing'
  | 'weldDetail'
  | 'position'
  | 'filletPosition'
  | 'filler'
  | 'fillerGroup'
  | 'fillerType'
  | 'wireDiameter'
  | 'gas'
  | 'co2'
  | 'gasFlow'
  | 'currentType'
  | 'current'
  | 'voltage'
  | 'wireSpeed'
  | 'travel'
  | 'heatInput'
  | 'preheat'
  | 'interpass'
  | 'unit'
  | 'jointSensor'
  | 'arcSensor'
  | 'visualControl'
  | 'arcLengthControl'
  | 'jointTracking';

/** Inclusive limits; an open end is null. `minOpen` leaves the lower limit itself out. */
export interface Band {
  min: number | null;
  max: number | null;
  minOpen?: true;
}

/** What a row gives for one test piece. What lies only in `unsure` is neither inside nor outside. */
export type Given =
  | { band: Band; unsure?: Band | undefined }
  | { values: readonly string[]; unsure?: readonly string[] | undefined }
  | { any: true }
  | { cannotSay: string; band?: Band };

type Tested = readonly (number | string)[];

interface Row<T> {
  variable: RangeVariable;
  unit: string | null;
  clause: string;
  confidence: Confidence;
  source: SourceId;
  applies: (test: T) => boolean;
  /** Without these inputs the row cannot be read. */
  needs: readonly (keyof T & string)[];
  tested: (test: T) => Tested;
  give: (test: T) => Given;
}

/** One row of a code's tables: which variable, for which test pieces, from which inputs. */
export type RangeRule<T> = Readonly<Row<T>>;

type Known<T, K extends keyof T> = T & { [P in K]: NonNullable<T[P]> };

type RuleInput<T, K extends keyof T & string> = Omit<
  Row<T>,
  'needs' | 'tested' | 'give' | 'applies' | 'unit'
> & {
  unit?: string;
  applies?: (test: T) => boolean;
  needs: readonly K[];
  tested?: (test: Known<T, K>) => Tested;
  give: (test: Known<T, K>) => Given;
};

/**
 * A maker of rows for one kind of test record. Inside `give` the needed inputs are known not to be null: the reader
 * of the rows asks for them first. Without `tested`, the first needed input is the test piece's own value.
 */
export function rowsFor<T extends object>() {
  return function row<K extends keyof T & string>(input: RuleInput<T, K>): RangeRule<T> {
    const { unit = null, applies = () => true, tested, ...rest } = input;
    const own = (test: Known<T, K>): Tested => {
      const first = input.needs[0];
      const value: unknown = first === undefined ? null : test[first];
      return typeof value === 'number' || typeof value === 'string' ? [value] : [];
    };
    return { ...rest, unit, applies, tested: tested ?? own } as unknown as RangeRule<T>;
  };
}

/** The tables of one code and edition, for one kind of test. */
export interface CodeRules<T> {
  code: string;
  edition: string;
  rows: readonly RangeRule<T>[];
  /** Why these tables say nothing about a test piece at all, in words; null when they do. */
  outOfScope: (test: T) => string | null;
}
