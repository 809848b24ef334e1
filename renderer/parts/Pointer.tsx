/** The half-filled pointer for a set value or now. The caller places its tip. */
export function Pointer({ widthPx = 14 }: { readonly widthPx?: number }) {
  return (
    <svg width={widthPx} height={widthPx * 0.86} viewBox="0 0 14 12" aria-hidden="true" focusable="false">
      <path d="M.8.75H13.2L7 11Z" fill="var(--paper)" />
      <path d="M7 .75H13.2L7 11Z" fill="var(--ink)" />
      <path d="M.8.75H13.2L7 11Z" fill="none" stroke="var(--ink)" strokeWidth="1.5" strokeLinejoin="miter" />
    </svg>
  );
}
