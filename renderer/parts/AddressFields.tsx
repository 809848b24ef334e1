import type { Address } from '../../shared-core/book/business.ts';
import { splitAddress } from '../../shared-core/lead/whole-address.ts';
import { Fields, TextField } from './Fields.tsx';

interface AddressFieldsProps {
  readonly address: Address;
  /** Only the changed lines, because another may have been saved meanwhile. */
  readonly onChange: (change: Partial<Address>) => void;
  readonly lineLabel?: string;
  readonly problem?: string | null;
  readonly lineOnly?: boolean;
}

export function AddressFields({ address, onChange, lineLabel = 'Street address', problem = null, lineOnly = false }: AddressFieldsProps) {
  return (
    <div className="stack">
      <Fields wide>
        <TextField label={lineLabel} value={address.line} problem={problem} onChange={(line) => onChange(splitAddress(line))} />
      </Fields>
      {!lineOnly && (
        <Fields>
          <TextField label="City" value={address.city} onChange={(city) => onChange({ city })} />
          <TextField label="State" value={address.region} onChange={(region) => onChange({ region })} />
          <TextField label="ZIP code" value={address.zip} onChange={(zip) => onChange({ zip })} />
        </Fields>
      )}
    </div>
  );
}
