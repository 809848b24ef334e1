/** The sizes of a window, by name: `@media (--small)` in a style sheet, and a query in code. Parts that depend on their own width use container queries. */
export const MEDIA = {
  /** An upright phone. */
  phone: '(max-width: 799px)',
  /** A phone held sideways, a laptop at 200%. Only the answer sticks. */
  low: '(max-height: 560px)',
  /** A phone sideways at 200%. Nothing sticks. */
  lowest: '(max-height: 330px)',
  /** Either: screens have one column. */
  small: '((max-width: 799px) or (max-height: 560px))',
  /** The drawing and the title block side by side leave little room. */
  narrow: '(max-width: 1240px)',
} as const;
