import { useId } from 'react';
import { FieldShell } from '../parts/FieldShell.tsx';

interface SearchFieldProps {
  readonly label: string;
  readonly placeholder: string;
  readonly text: string;
  /** Each letter as it is typed. */
  readonly onType: (text: string) => void;
}

/** A box whose every letter narrows the list under it. */
export function SearchField({ label, placeholder, text, onType }: SearchFieldProps) {
  const id = useId();
  return (
    <div className="people-search">
      <FieldShell id={id} label={label} problem={null}>
        <input
          id={id}
          type="search"
          value={text}
          placeholder={placeholder}
          autoComplete="off"
          onChange={(event) => onType(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Escape') onType('');
          }}
        />
      </FieldShell>
    </div>
  );
}
