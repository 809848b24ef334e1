import type { Update } from '../book/write.ts';
import type { Business } from '../../shared-core/book/business.ts';

/** Props of every part of the settings. */
export interface BusinessPart {
  readonly business: Business;
  /** Saves one change as one step of undo; `label` names it. */
  readonly edit: (label: string, change: Update<Business>) => void;
}
