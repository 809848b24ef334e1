import { useState } from 'react';
import { DropZone } from '../parts/DropZone.tsx';
import { Notice } from '../parts/Notice.tsx';
import { readText } from '../parts/read-text.ts';
import { BlockPart } from '../parts/TitleBlock.tsx';
import { ContactsDialog } from './ContactsDialog.tsx';
import { type ContactFile, readContacts } from './read-contacts.ts';

/** Customers from another program's file. */
export function ContactsPart() {
  const [file, setFile] = useState<ContactFile | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const open = async (given: File | undefined): Promise<void> => {
    if (given === undefined) return;
    setSaid(null);
    try {
      const read = readContacts(await readText(given));
      setProblem(read.ok ? null : read.message);
      if (read.ok) setFile(read.value);
    } catch {
      setProblem(`${given.name} cannot be read from the disk. Copy it to this computer first, then choose it again.`);
    }
  };
  return (
    <BlockPart heading="From another program">
      <DropZone
        label="Contacts"
        chooseWord="Choose a file"
        accept={['.vcf', '.csv', 'text/vcard', 'text/csv']}
        onFiles={(files) => void open(files[0])}
        refuse={(name) => `${name} is neither a vCard (.vcf) nor a table (.csv).`}
        hint="vCard or comma-separated values; you see everything before it is written."
        problem={problem}
      />
      {said !== null && <Notice onClose={() => setSaid(null)}>{said}</Notice>}
      {file !== null && (
        <ContactsDialog
          file={file}
          onClose={() => setFile(null)}
          onSay={(good, words) => {
            if (good) setSaid(words);
            else setProblem(words);
          }}
        />
      )}
    </BlockPart>
  );
}
