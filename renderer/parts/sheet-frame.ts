import { type ReactNode, createContext, useContext } from 'react';

export const PAGES = [
  { name: 'Today', href: '/' },
  { name: 'Jobs', href: '/jobs' },
  { name: 'Customers', href: '/customers' },
  { name: 'Money', href: '/money' },
  { name: 'Materials', href: '/materials' },
  { name: 'Settings', href: '/business' },
] as const;
export type PageName = (typeof PAGES)[number]['name'];

/** What all screens share and none decides, provided once around them. */
export interface SheetFrame {
  /** The label of the edit that undo would revert, and the command; null when there is none. */
  readonly undo: { readonly label: string; readonly run: () => void } | null;
  /** Whether keys of one letter do something; their hints are shown only then. */
  readonly letterKeys: boolean;
  readonly openSearch: () => void;
  /** Null while a backup is open read-only. */
  readonly openNewLead: (() => void) | null;
}

export const SheetFrameContext = createContext<SheetFrame>({
  undo: null,
  letterKeys: true,
  openSearch: () => undefined,
  openNewLead: null,
});

/** Bars above the foot of every screen: a failure with its action, or an undo; null for none. */
export const NoticesContext = createContext<ReactNode>(null);

/** The frame's commands, for a screen that repeats one. */
export function useSheetFrame(): SheetFrame {
  return useContext(SheetFrameContext);
}
