/** A problem with the input of an estimate, with its room and field. */

/** A sentence with one problem and its fix. */
export type Problem = {
  readonly key: string;
  /** The room it concerns; null for the whole job. */
  readonly roomId: string | null;
  readonly message: string;
  /** True when a figure is missing because of it, so that no quote can be issued. */
  readonly stops: boolean;
};
