/** The program's logo: a graduated straightedge with the pointer on it. */
export function Mark() {
  return (
    <svg width="30" height="18" viewBox="0 0 30 18" aria-hidden="true" focusable="false">
      <path d="M0 14.5H30" stroke="var(--ink)" strokeWidth="2" />
      <path d="M3.5 14V9.5M7.5 14V11.5M22.5 14V11.5M26.5 14V9.5" stroke="var(--ink)" strokeWidth="1" />
      <path d="M10 5H20L15 13.5Z" fill="var(--paper)" stroke="var(--ink)" strokeWidth="1.25" />
      <path d="M15 5H20L15 13.5Z" fill="var(--ink)" />
    </svg>
  );
}
