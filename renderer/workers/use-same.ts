import { dequal } from 'dequal';
import { useState } from 'react';

/** Returns the same object while its content is equal, because live queries return a new one at every write. */
export function useSame<T>(value: T): T {
  const [stable, setStable] = useState(value);
  if (dequal(stable, value)) return stable;
  setStable(value);
  return value;
}
