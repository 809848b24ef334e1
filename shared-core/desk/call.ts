import type { z } from 'zod';

/** One call of the contract: what it takes and what it gives. */
export function call<Takes extends z.ZodType, Gives extends z.ZodType>(
  takes: Takes,
  gives: Gives,
): { readonly takes: Takes; readonly gives: Gives } {
  return { takes, gives };
}
