/** Why a date is what it is, for the figure one opens: what went in, the formula in words, the source, the range. */
export type Reason = {
  readonly wentIn: readonly { readonly name: string; readonly value: string }[];
  readonly formula: string;
  readonly source: string;
  readonly range: string;
};
