import { FieldProblem } from './Field.tsx';
import { type ReactNode, useState } from 'react';
import { DropZone as AriaDropZone, FileTrigger } from 'react-aria-components';
import { PressWord } from './Buttons.tsx';
import './DropZone.css';

interface DropZoneProps {
  /** What to add: `Photos of the floor`. */
  readonly label: string;
  /** The button for the file dialog: `Choose photos`. */
  readonly chooseWord: string;
  /** Accepted MIME types, or file name endings with their dot. */
  readonly accept: readonly string[];
  readonly multiple?: boolean;
  /** Whether the form is not saved without one; said beside the label. */
  readonly isRequired?: boolean;
  readonly onFiles: (files: readonly File[]) => void;
  /** The error for a file of another type. */
  readonly refuse: (name: string) => string;
  readonly hint?: ReactNode;
  readonly problem?: string | null;
}

export function DropZone({
  label,
  chooseWord,
  accept,
  multiple = false,
  isRequired = false,
  onFiles,
  refuse,
  hint,
  problem = null,
}: DropZoneProps) {
  const [refused, setRefused] = useState<string | null>(null);
  const take = (files: readonly File[]) => {
    const good = files.filter((file) => isTaken(file, accept));
    const bad = files.find((file) => !isTaken(file, accept));
    setRefused(bad === undefined ? null : refuse(bad.name));
    const given = multiple ? good : good.slice(0, 1);
    if (given.length > 0) onFiles(given);
  };
  const message = refused ?? problem;
  return (
    <AriaDropZone
      className="drop-zone"
      aria-label={label}
      onDrop={(event) => {
        void Promise.all(event.items.flatMap((item) => (item.kind === 'file' ? [item.getFile()] : []))).then(take);
      }}
    >
      <p className="caption">{isRequired ? `${label} (required)` : label}</p>
      <div className="words">
        <FileTrigger acceptedFileTypes={accept} allowsMultiple={multiple} onSelect={(list) => take([...(list ?? [])])}>
          <span className="drop-zone-choose">
            <PressWord>{chooseWord}</PressWord>
          </span>
        </FileTrigger>
        <span className="second small">{multiple ? 'or drop files here' : 'or drop a file here'}</span>
      </div>
      {hint !== undefined && <p className="field-hint">{hint}</p>}
      <FieldProblem text={message} />
    </AriaDropZone>
  );
}

function isTaken(file: File, accept: readonly string[]): boolean {
  const name = file.name.toLowerCase();
  return accept.some((kind) => {
    if (kind.startsWith('.')) return name.endsWith(kind.toLowerCase());
    return kind.endsWith('/*') ? file.type.startsWith(kind.slice(0, -1)) : file.type === kind;
  });
}
