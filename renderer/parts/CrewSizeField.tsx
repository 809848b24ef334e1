import type { Business } from '../../shared-core/book/business.ts';
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
      hint="For jobs without crew names. Typical until you change it."
      whole
      least={2}
      most={20}
      typical={crewSize === undefined}
      value={crewSize ?? USUAL_HANDS.helpers + 1}
      emptyMessage="Enter 2 or more: one mixes while another spreads."
      onChange={(people) => onEdit('people on a pour', { crewSize: people })}
    />
  );
}
