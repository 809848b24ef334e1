/** A value that parts of the page share, and the calls back when it changes. */
import { useSyncExternalStore } from 'react';

export interface HeldValue<T> {
  readonly get: () => T;
  readonly set: (next: T) => void;
  readonly use: () => T;
}

export function heldValue<T>(first: T): HeldValue<T> {
  let value = first;
  const listeners = new Set<() => void>();
  const get = (): T => value;
  const listen = (changed: () => void): (() => void) => {
    listeners.add(changed);
    return () => void listeners.delete(changed);
  };
  return {
    get,
    set: (next) => {
      value = next;
      for (const changed of listeners) changed();
    },
    use: () => useSyncExternalStore(listen, get),
  };
}
