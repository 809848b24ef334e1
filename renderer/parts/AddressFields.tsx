import type { Address } from '../../shared-core/book/business.ts';
import { Fields } from './Fields.tsx';
import { TextField } from './TextField.tsx';

interface AddressFieldsProps {
  readonly address: Address;
  readonly onChange: (address: Address) => void;
  /** What the first line is asked as. */
  readonly lineLabel?: string;
}

/** An address, line by line. */
export function AddressFields({ address, onChange, lineLabel = 'Street and number' }: AddressFieldsProps) {
  return (
    <>
      <Fields wide>
        <TextField label={lineLabel} value={address.line} onChange={(line) => onChange({ ...address, line })} autoComplete="off" />
      </Fields>
      <Fields>
        <TextField label="Town" value={address.town} onChange={(town) => onChange({ ...address, town })} autoComplete="off" />
        <TextField label="State" value={address.region} onChange={(region) => onChange({ ...address, region })} autoComplete="off" />
        <TextField
          label="Postcode"
          value={address.postcode}
          onChange={(postcode) => onChange({ ...address, postcode })}
          autoComplete="off"
        />
      </Fields>
    </>
  );
}
