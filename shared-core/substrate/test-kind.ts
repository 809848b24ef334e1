/** Definition of one kind of floor test, as listed in `test-kinds.ts`. */
import type { FloorTest, Layer } from '../book/layer.ts';
import type { QuantityKindName } from '../measure/quantity-kinds.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import type { Wording } from './wording.ts';

/** One property a floor is tested for. */
export type NeedId =
  | 'slab-moisture'
  | 'wood-boards'
  | 'wood-structure'
  | 'absorption'
  | 'surface-strength'
  | 'surface-look'
  | 'deflection'
  | 'air';

/** Context for judging a test: the depth format and the minimum tensile bond for this pour. */
export type CountContext = Pick<Wording, 'depth'> & { readonly pullOffLeastPa: number };

/** Context for the arithmetic of a test, in addition to its readings. */
export type TestLimits = {
  readonly units: UnitSystem;
  /** Load of the pour, pascals; null while there is no estimate. */
  readonly addedLoadPa: number | null;
  /** Minimum tensile bond of the substrate for this pour, pascals. */
  readonly pullOffLeastPa: number;
  /** Joist deflection may be no more than the span divided by this. */
  readonly spanOver: number;
};

type Base = { readonly key: string; readonly label: string; readonly hint?: string; readonly optional?: boolean };
type Option = { readonly value: string; readonly word: string };
/** A field of a test form. Values are SI; `share` is entered as a percentage. */
export type TestField =
  | (Base & { readonly as: 'quantity'; readonly kind: QuantityKindName })
  | (Base & { readonly as: 'number'; readonly unit: string; readonly least: number; readonly most: number })
  /** Seconds until a drop was absorbed; null if it was not, undefined until entered. */
  | (Base & { readonly as: 'drop' })
  | (Base & { readonly as: 'share' })
  | (Base & { readonly as: 'shares' })
  | (Base & { readonly as: 'layer' })
  | (Base & { readonly as: 'choice'; readonly options: readonly Option[] })
  | (Base & { readonly as: 'choices'; readonly options: readonly Option[] });

/** The form of a test: fields, first values and method. */
export type TestForm = {
  readonly title: string;
  readonly source: string;
  readonly begins: Readonly<Record<string, unknown>>;
  readonly fields: readonly TestField[];
  /** The fields cleared for the next spot while the others stay; omitted when a floor has only one such test. */
  readonly again?: readonly string[];
};

/** One kind of test. */
export type TestKind<T extends FloorTest> = {
  /** Its name in a line of a document. */
  readonly name: string;
  /** Hours after which it is stale; null when it never is. Common practice, no source. */
  readonly goodForHours: number | null;
  /** Hours within which tests of this kind belong to one visit. A later visit replaces an earlier one. Common practice, no source. */
  readonly visitHours: number;
  /** The required tests it satisfies. */
  readonly answers: readonly NeedId[];
  readonly form: TestForm;
  /** The result in one line, with its arithmetic where there is any. */
  words(test: T, units: UnitSystem, locale: string): string;
  /** The result with its arithmetic, in sentences; empty where the reading is the result. */
  arithmetic(test: T, limits: TestLimits, wording: Wording): readonly string[];
  /** Why it does not count, as a sentence; null when it does. @param layers top first */
  doesNotCount(test: T, layers: readonly Layer[], context: CountContext): string | null;
  /** Questions about readings that are impossible or unlikely. */
  questions(test: T, wording: Wording): readonly (string | false)[];
};

/** Used by a kind of which every test counts. */
export const alwaysCounts = (): null => null;
/** Used by a kind without arithmetic or questions. */
export const nothingToSay = (): readonly string[] => [];
/** An option of a choice. */
export const option = (value: string, word: string): Option => ({ value, word });
