import { useState } from 'react';
import { named } from '../desk/working.ts';
import { DropZone } from '../parts/DropZone.tsx';
import { Notice } from '../parts/Notice.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { ContactsDialog } from './ContactsDialog.tsx';
import { type ContactFile, readContactFile } from './read-contacts.ts';

/** Imports customers from another program's file. */
export function ContactsPart() {
  const [file, setFile] = useState<ContactFile | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [message, setMessage] = useState<string | null>(null);
  const open = async (given: File | undefined): Promise<void> => {
    if (given === undefined) return;
    setMessage(null);
    try {
      const read = await named(`Reading ${given.name}…`, readContactFile(given));
      setProblem(read.ok ? null : read.message);
      if (read.ok) setFile(read.value);
    } catch {
      setProblem(`${given.name} could not be read. Copy it to this computer and try again.`);
    }
  };
  return (
    <BlockPart heading="Import customers">
      <DropZone
        label="Contacts"
        chooseWord="Choose file"
        accept={['.vcf', '.csv', '.txt', '.tsv', '.xlsx', 'text/vcard', 'text/csv']}
        onFiles={(files) => void open(files[0])}
        refuse={(name) => `${name} is not a contacts file. Choose a vCard (.vcf), a CSV file, or an Excel workbook (.xlsx).`}
        hint="vCard, CSV, or Excel workbook. You can check every row before it is saved."
        problem={problem}
      />
      {message !== null && <Notice onClose={() => setMessage(null)}>{message}</Notice>}
      {file !== null && (
        <ContactsDialog
          file={file}
          onClose={() => setFile(null)}
          onSay={(good, words) => {
            if (good) setMessage(words);
            else setProblem(words);
          }}
        />
      )}
    </BlockPart>
  );
}
