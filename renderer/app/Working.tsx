import { useSyncExternalStore } from 'react';
import { onWorking, workingNow } from '../desk/working.ts';
import './Working.css';

/** Names what is being made, over the foot. Short work never shows: the words fade in late. */
export function Working() {
  const words = useSyncExternalStore(onWorking, workingNow);
  return (
    <p className="working" role="status">
      {words !== null && <span>{words}</span>}
    </p>
  );
}
