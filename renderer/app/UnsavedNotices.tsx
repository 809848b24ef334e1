import { useSyncExternalStore } from 'react';
import { discardUnsaved, onUnsaved, retryUnsaved, unsavedEdits } from '../book/pending.ts';
import { Notice } from '../parts/Notice.tsx';

/** Edits that could not be saved, listed until they are saved or discarded. */
export function UnsavedNotices() {
  const unsaved = useSyncExternalStore(onUnsaved, unsavedEdits);
  return unsaved.map((one) => (
    <Notice
      key={one.label}
      kind="failure"
      onClose={() => discardUnsaved(one)}
      closeWord={one.retry === null ? 'Close' : 'Discard'}
      {...(one.retry === null ? {} : { action: { word: 'Try again', run: retryUnsaved } })}
    >
      Not saved: {one.label}. {one.message} {one.retry === null ? '' : 'Straightedge tries again every 10 seconds.'}
    </Notice>
  ));
}
