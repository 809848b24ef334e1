/** A problem with the inputs of an estimate, with the place it belongs to. */

/** A sentence about one thing: what is wrong and what to do. */
export type Problem = {
  readonly key: string;
  /** The room it concerns; null for the whole job. */
  readonly roomId: string | null;
  readonly message: string;
  /** True when a figure is missing because of it, so that no quote should go out. */
  readonly stops: boolean;
};
