import { useId } from 'react';
import { FieldShell } from '../parts/Field.tsx';

interface SearchFieldProps {
  readonly label: string;
  readonly placeholder: string;
  readonly text: string;
  /** Called on every keystroke. */
  readonly onType: (text: string) => void;
}

export function SearchField({ label, placeholder, text, onType }: SearchFieldProps) {
  const id = useId();
  return (
    <div className="customers-search">
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
