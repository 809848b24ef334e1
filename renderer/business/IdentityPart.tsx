import { countryName, parseCountry } from '../../shared-core/measure/country.ts';
import { AddressFields } from '../parts/AddressFields.tsx';
import { Field } from '../parts/Field.tsx';
import { Fields } from '../parts/Fields.tsx';
import { TextField } from '../parts/TextField.tsx';
import { checkEmail, checkPhone, checkShort } from '../parts/text-checks.ts';
import type { BusinessPart } from './business-edit.ts';
import { MarkField } from './MarkField.tsx';
import { SettingsPart } from './SettingsPart.tsx';

/** Who the business is: what stands at the head of every paper. */
export function IdentityPart({ business, edit }: BusinessPart) {
  return (
    <SettingsPart heading="Name and address" says="They stand at the head of every quote and handover sheet.">
      <Fields wide>
        <TextField
          label="Name of the business"
          value={business.name}
          check={checkShort}
          onChange={(name) => edit('name of the business', (b) => ({ ...b, name }))}
        />
        <TextField
          label="Your own name"
          value={business.ownerName}
          check={checkShort}
          onChange={(ownerName) => edit('your name', (b) => ({ ...b, ownerName }))}
        />
      </Fields>
      <AddressFields
        address={business.address}
        onChange={(change) => edit('address of the business', (b) => ({ ...b, address: { ...b.address, ...change } }))}
      />
      <Fields>
        <Field
          label="Country"
          value={business.address.country}
          parse={parseCountry}
          format={(code) => code}
          emptyMessage="A country is needed here, in two letters."
          hint={countryName(business.address.country) ?? undefined}
          onChange={(country) => {
            if (country !== null) edit('country', (b) => ({ ...b, address: { ...b.address, country } }));
          }}
        />
        <TextField
          label="Phone"
          kind="tel"
          value={business.phone}
          check={checkPhone}
          onChange={(phone) => edit('telephone of the business', (b) => ({ ...b, phone }))}
        />
        <TextField
          label="Email"
          kind="email"
          value={business.email}
          check={checkEmail}
          onChange={(email) => edit('email of the business', (b) => ({ ...b, email }))}
        />
      </Fields>
      <MarkField mark={business.mark} onChange={(mark) => edit('mark of the business', (b) => ({ ...b, mark }))} />
    </SettingsPart>
  );
}
