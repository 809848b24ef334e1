/** What crosses between the screens and the machine: a value, or an error with a stable code and a sentence. Survives JSON. */

/** Every expected failure of the desk. */
export const DESK_ERRORS = [
  'unknown-call',
  'bad-input',
  'not-allowed',
  'too-large',
  'disk-full',
  'read-only',
  'in-use',
  'not-found',
  'unsupported',
  'encrypted',
  'wrong-passphrase',
  'failed',
] as const;
export type DeskErrorCode = (typeof DESK_ERRORS)[number];

export type DeskError = { readonly code: DeskErrorCode; readonly message: string };
export type Envelope<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: DeskError };

/** Wraps a failure; `message` is a sentence that says what to do. */
export function failure(code: DeskErrorCode, message: string): { readonly ok: false; readonly error: DeskError } {
  return { ok: false, error: { code, message } };
}

/** Wraps a value. */
export function success<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value };
}
