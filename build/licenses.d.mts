/** Types of the license audit that tests call. */
export function licenseFault(one: { readonly name: string; readonly license: string; readonly text: string }): string | null;
