/** The one place of the screens where time and new ids come from the machine. */

/** Now, as an instant in UTC. */
export function nowInstant(): string {
  return new Date().toISOString();
}

/** A new record's id. */
export function newId(): string {
  return crypto.randomUUID();
}
