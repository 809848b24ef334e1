import type { Business } from '../../shared-core/book/business.ts';

/** What every part of the business's sheet is given. */
export interface BusinessPart {
  readonly business: Business;
  /** Writes a change as one step of undo; `label` says what it did. */
  readonly edit: (label: string, how: (business: Business) => Business) => void;
}
