/** The only place where the screens read the clock and create ids. */

export function nowInstant(): string {
  return new Date().toISOString();
}

export function newId(): string {
  return crypto.randomUUID();
}
