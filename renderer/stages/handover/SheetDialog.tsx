import { useState } from 'react';
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import { readTree } from '../../../shared-core/documents/stored-tree.ts';
import { formatInstant } from '../../../shared-core/measure/moment.ts';
import { reprintDocument } from '../../book/document-commands.ts';
import { Dialog, Notice, ResultNotice } from '../../parts/Dialog.tsx';
import { DocumentBlocks } from '../../parts/DocumentBlocks.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

interface SheetDialogProps {
  readonly document: MadeDocument;
  readonly zone: string;
  readonly onClose: () => void;
}

/** A stored document, whose PDF can be saved again. */
export function SheetDialog({ document, zone, onClose }: SheetDialogProps) {
  const { locale } = useMeasure();
  const [message, setMessage] = useState<{ ok: boolean; text: string } | null>(null);
  const tree = readTree(document.content);
  return (
    <Dialog
      wide
      onClose={onClose}
      title={document.title}
      actions={
        <>
          <TextButton onPress={onClose}>Close</TextButton>
          {tree !== null && (
            <TextButton kind="outlined" onPress={() => void reprintDocument(document).then(setMessage)}>
              Save PDF
            </TextButton>
          )}
        </>
      }
    >
      <p className="small">{`Made ${formatInstant(document.madeAt, zone, 'weekday', locale)}. Shown as it was made.`}</p>
      <ResultNotice message={message} onClose={setMessage} />
      {tree === null ? (
        <Notice kind="failure">This document was stored by another version and cannot be shown here. The saved PDF is still valid.</Notice>
      ) : (
        <DocumentBlocks blocks={tree.blocks} topLevel={3} />
      )}
    </Dialog>
  );
}
