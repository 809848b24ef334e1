/** The result of parsing: the value, or a sentence that says what is wrong and what to enter. */
export type Parsed<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly message: string };
