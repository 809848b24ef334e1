/** `waiting`: ring. `under-way` or prep needed: half disc. `done` or Go: disc. `held`: bar. */
export type StateName = 'waiting' | 'under-way' | 'done' | 'held';

export const STATE_WORDS: Readonly<Record<StateName, string>> = {
  waiting: 'waiting',
  'under-way': 'in progress',
  done: 'done',
  held: 'held',
};

interface StateShapeProps {
  readonly state: StateName;
  /** For screen readers, where no word is beside the shape. */
  readonly label?: string;
  readonly sizePx?: number;
}

/** A state as a shape, always with its word beside it. */
export function StateShape({ state, label, sizePx = 18 }: StateShapeProps) {
  const aria = label === undefined ? ({ 'aria-hidden': true } as const) : { role: 'img', 'aria-label': label };
  return (
    <svg width={sizePx} height={sizePx} viewBox="0 0 18 18" focusable="false" data-state={state} {...aria}>
      {state === 'held' ? (
        <rect x="0" y="6" width="18" height="6" fill="var(--ink)" />
      ) : (
        <circle cx="9" cy="9" r="7" fill={state === 'done' ? 'var(--ink)' : 'var(--paper)'} stroke="var(--ink)" strokeWidth="1.75" />
      )}
      {state === 'under-way' && <path d="M2 9A7 7 0 0 0 16 9Z" fill="var(--ink)" />}
    </svg>
  );
}
