/** Sentences of each kind, for files that a person approves: the compiler names a kind that has no case. */

type Rest<T extends { readonly kind: string }, Kind> = T extends unknown ? (Kind extends T['kind'] ? Omit<T, 'kind'> : never) : never;

/** The cases of each kind, without its name. */
type EachKind<T extends { readonly kind: string }> = {
  readonly [Kind in T['kind']]: readonly [Rest<T, Kind>, ...(readonly Rest<T, Kind>[])];
};

/** `kind: sentence` for each case of each kind. */
export const eachKind = <T extends { readonly kind: string }>(words: (one: T) => string, cases: EachKind<T>): readonly string[] =>
  Object.entries<readonly object[]>(cases).flatMap(([kind, rests]) => rests.map((rest) => `${kind}: ${words({ ...rest, kind } as T)}`));

/** The words of each name, a heading before those of each set. */
export const wordsText = (sets: Readonly<Record<string, readonly string[]>>): string =>
  Object.entries(sets)
    .map(([name, lines]) => `= ${name}\n${lines.join('\n')}\n`)
    .join('');
