/** The reason for a date: inputs, formula in words, source, range. */
export type Reason = {
  readonly wentIn: readonly { readonly name: string; readonly value: string }[];
  readonly formula: string;
  readonly source: string;
  readonly range: string;
};
