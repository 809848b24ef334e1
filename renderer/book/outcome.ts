/** How a command ended: done, or a sentence a person can act on. */
export type Outcome<T = void> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly message: string; readonly where: string };

/** A command that worked. */
export function done<T>(value: T): Outcome<T> {
  return { ok: true, value };
}

/** A command that did not; nothing was written. */
export function refused(message: string, where = ''): { readonly ok: false; readonly message: string; readonly where: string } {
  return { ok: false, message, where };
}

const nameOf = (error: unknown): string => {
  if (!(error instanceof Error)) return '';
  const inner: unknown = 'inner' in error ? error.inner : null;
  return inner instanceof Error ? `${error.name} ${inner.name}` : error.name;
};

/** Puts a failure of the database into words; anything unforeseen is thrown on. */
export function explainDatabase(error: unknown): { readonly ok: false; readonly message: string; readonly where: string } {
  const name = nameOf(error);
  if (name.includes('QuotaExceeded'))
    return refused('The disk is full, so this was not written. Make room and try again; everything written before is safe.');
  if (name.includes('ReadOnly'))
    return refused('You are looking around in a copy of the book, and nothing in it can be changed. Go back to the book first.');
  if (name.includes('VersionError'))
    return refused('This book was written by a newer version of Straightedge. Update the program to open it; the book was not touched.');
  if (name.includes('DatabaseClosed') || name.includes('InvalidState'))
    return refused('The book was closed in the middle, so this was not written. Open the program again and repeat the last step.');
  throw error;
}
