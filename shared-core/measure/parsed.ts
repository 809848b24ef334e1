/** The value, or the fact that stands in its way, which is put in words beside screens and documents. */
export type Found<T, Problem> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: Problem };

/** The result of parsing: the value, or a sentence that says what is wrong and what to enter. */
export type Parsed<T> = { readonly ok: true; readonly value: T } | Refused;
type Refused = { readonly ok: false; readonly message: string };

export const refused = (message: string): Refused => ({ ok: false, message });
