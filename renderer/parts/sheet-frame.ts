import { type ReactNode, createContext, useContext } from 'react';

/** The words of the top line, in their order. */
export const PAGES = [
  { name: 'Today', href: '/' },
  { name: 'Jobs', href: '/jobs' },
  { name: 'Customers', href: '/customers' },
  { name: 'Money', href: '/money' },
  { name: 'Materials', href: '/materials' },
  { name: 'Settings', href: '/business' },
] as const;
export type PageName = (typeof PAGES)[number]['name'];

/** What every sheet has in common and no screen decides: given once, around all of them. */
export interface SheetFrame {
  /** What undo would take back, in words, and doing so; null when there is nothing. */
  readonly undo: { readonly what: string; readonly run: () => void } | null;
  readonly openSearch: () => void;
  readonly openNewLead: () => void;
  /** Bars above the foot of whatever sheet is shown: a failure with its way on, an undo just offered. */
  readonly notices: ReactNode;
}

export const SheetFrameContext = createContext<SheetFrame>({
  undo: null,
  openSearch: () => undefined,
  openNewLead: () => undefined,
  notices: null,
});

/** The frame's own commands, for a screen that repeats one of them. */
export function useSheetFrame(): SheetFrame {
  return useContext(SheetFrameContext);
}
