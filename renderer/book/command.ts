/** The result of a command: success, or a sentence that says what to do. Commands never reject. */
export type Outcome<T = void> =
  | { readonly ok: true; readonly value: T }
  | {
      readonly ok: false;
      readonly message: string;
      readonly where: string;
      /** True when the database failed rather than the entry was refused, so that a retry may work. */
      readonly isFault?: true;
    };
type Refused = Extract<Outcome, { readonly ok: false }>;

/** One object, so that a screen that is told twice in a row draws nothing the second time. */
const NOTHING_BACK = { ok: true, value: undefined } as const;

export function done<T>(value: T): Outcome<T> {
  return value === undefined ? (NOTHING_BACK as Outcome<T>) : { ok: true, value };
}

export function refused(message: string, where = ''): Refused {
  return { ok: false, message, where };
}

const fault = (message: string): Refused => ({ ok: false, message, where: '', isFault: true });

const nameOf = (error: unknown): string => {
  if (!(error instanceof Error)) return '';
  const inner: unknown = 'inner' in error ? error.inner : null;
  return inner instanceof Error ? `${error.name} ${inner.name}` : error.name;
};

const faultListeners = new Set<(error: unknown) => void>();
/** Calls back with every database error that has no sentence of its own, for the log. Returns a function that unsubscribes. */
export function onDatabaseFault(listen: (error: unknown) => void): () => void {
  faultListeners.add(listen);
  return () => void faultListeners.delete(listen);
}

/** Turns a database failure into a sentence. An unknown one goes to the log. */
export function explainDatabase(error: unknown): Refused {
  const name = nameOf(error);
  if (name.includes('QuotaExceeded'))
    return fault('The disk is full, so this was not saved. Free up space and try again. Everything saved before is safe.');
  if (name.includes('ReadOnly')) return refused('This backup is open read-only. Close it to make changes.');
  if (name.includes('VersionError'))
    return refused('Your data was saved by a newer version of Straightedge. Update the program to open it. Your data was not changed.');
  for (const listen of faultListeners) listen(error);
  if (name.includes('DatabaseClosed') || name.includes('InvalidState'))
    return fault(
      'The database was closed, so this was not saved. The disk may be full. Free up space, restart Straightedge, and repeat the last step.',
    );
  return fault('The database failed, so this was not saved. Try again, or restart Straightedge if it keeps failing.');
}

/** Failures that are often temporary: the system aborted a transaction, or the disk was slow. */
const PASSING = /Abort|Unknown|Timeout|TransactionInactive|PrematureCommit|OperationFailed/;
/** Short enough not to be noticed after a keystroke. */
const WAITS_MS = [30, 150] as const;

/**
 * Runs work on the database, and again after a temporary failure. The work is one transaction or can be repeated.
 * @returns its result, or why it failed; never rejects
 */
export async function attempt<T>(work: () => Promise<Outcome<T>>): Promise<Outcome<T>> {
  for (let tries = 0; ; tries += 1) {
    try {
      return await work();
    } catch (error) {
      const waitMs = PASSING.test(nameOf(error)) ? WAITS_MS[tries] : undefined;
      if (waitMs === undefined) return explainDatabase(error);
      await new Promise((resolve) => setTimeout(resolve, waitMs));
    }
  }
}

/** Runs work on the database that gives nothing back. */
export function stored(work: () => PromiseLike<unknown>): Promise<Outcome> {
  return attempt(async () => {
    await work();
    return done(undefined);
  });
}

/** The only place where the screens read the clock and create ids. */

export function nowInstant(): string {
  return new Date().toISOString();
}

export function newId(): string {
  return crypto.randomUUID();
}

export const stamps = (now = nowInstant(), id = newId()) => ({ id, createdAt: now, changedAt: now, deletedAt: null });
