/**
 * Calls and answers with bytes over HTTP: the bytes are the body, and the rest is JSON in a header, because as base64 in JSON they are
 * copied five times.
 */

/** The type of such a body, and the header with the rest, percent-encoded. */
export const BYTES_TYPE = 'application/octet-stream';
export const BESIDE_HEADER = 'x-straightedge-beside';

export type BytesApart = { readonly bytes: Uint8Array<ArrayBuffer>; readonly beside: string };

/** Takes an object with `bytes` apart; null for any other value. */
export function bytesApart(value: unknown): BytesApart | null {
  if (typeof value !== 'object' || value === null || !('bytes' in value) || !(value.bytes instanceof Uint8Array)) return null;
  const { bytes, ...rest } = value;
  // No buffer of the program is shared between threads.
  return { bytes: bytes as Uint8Array<ArrayBuffer>, beside: encodeURIComponent(JSON.stringify(rest)) };
}

/** Puts it together again; the header's JSON unchanged when it is no object. @throws on a header that is not percent-encoded JSON */
export function bytesJoined(bytes: Uint8Array, beside: string): unknown {
  const rest: unknown = JSON.parse(decodeURIComponent(beside));
  return typeof rest === 'object' ? { ...rest, bytes } : rest;
}
