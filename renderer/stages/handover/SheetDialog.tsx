import { useState } from 'react';
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import { readTree } from '../../../shared-core/documents/handover-changes.ts';
import { formatInstant } from '../../../shared-core/measure/moment.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import { DocumentBlocks } from '../../parts/DocumentBlocks.tsx';
import { makePaper } from '../../parts/make-paper.ts';
import { Notice } from '../../parts/Notice.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

/** A sheet that was made, as it was made; the same paper can be had again. */
export function SheetDialog({
  document,
  zone,
  onClose,
}: {
  readonly document: MadeDocument;
  readonly zone: string;
  readonly onClose: () => void;
}) {
  const { locale } = useMeasure();
  const [said, setSaid] = useState<{ ok: boolean; says: string } | null>(null);
  const tree = readTree(document.content);
  return (
    <Dialog
      open
      wide
      onClose={onClose}
      title={document.title}
      actions={
        <>
          <TextButton onPress={onClose}>Back</TextButton>
          {tree !== null && (
            <TextButton kind="outlined" onPress={() => void makePaper(tree).then(setSaid)}>
              Open the paper again
            </TextButton>
          )}
        </>
      }
    >
      <p className="small">Made {formatInstant(document.madeAt, zone, 'weekday', locale)}, kept as it was.</p>
      {said !== null && (
        <Notice kind={said.ok ? 'told' : 'failure'} onClose={() => setSaid(null)}>
          {said.says}
        </Notice>
      )}
      {tree === null ? (
        <Notice kind="failure">
          This sheet was made by another version and cannot be drawn here; the paper that was kept still stands.
        </Notice>
      ) : (
        <DocumentBlocks blocks={tree.blocks} topLevel={3} />
      )}
    </Dialog>
  );
}
