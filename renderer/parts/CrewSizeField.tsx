import type { Business } from '../../shared-core/book/business.ts';
import { ALONE_WORDS } from '../../shared-core/documents/pour-words.ts';
import { USUAL_HANDS } from '../../shared-core/material/crew-hours.ts';
import { NumberField } from './Fields.tsx';

interface CrewSizeFieldProps {
  readonly business: Business;
  readonly onEdit: (label: string, edit: Partial<Business>) => void;
}

/** People on a pour of a job that names none; the typical crew until it is entered. */
export function CrewSizeField({ business: { crewSize }, onEdit }: CrewSizeFieldProps) {
  return (
    <NumberField
      label="People on a pour, you included"
      hint={crewSize === 1 ? `For jobs without crew names. ${ALONE_WORDS}` : 'For jobs without crew names. Typical until you change it.'}
      whole
      least={1}
      most={20}
      typical={crewSize === undefined}
      value={crewSize ?? USUAL_HANDS.helpers + 1}
      emptyMessage="Enter 1 or more."
      onChange={(people) => onEdit('people on a pour', { crewSize: people })}
    />
  );
}
