/** What reading something typed gives: the value, or a sentence saying what is wrong and what would be right. */
export type Parsed<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly message: string };
