import { countryName, parseCountry } from '../../shared-core/measure/country.ts';
import { AddressFields } from '../parts/AddressFields.tsx';
import { Field } from '../parts/Field.tsx';
import { Fields, TextField, checkEmail, checkPhone, checkShort } from '../parts/Fields.tsx';
import type { BusinessPart } from './business-edit.ts';
import { LogoField } from './LogoField.tsx';
import { SettingsPart } from './SettingsPart.tsx';

/** The company as its documents show it. */
export function IdentityPart({ business, edit }: BusinessPart) {
  return (
    <SettingsPart heading="Company" text="Printed at the top of every quote and handover sheet.">
      <Fields wide>
        <TextField
          label="Company name"
          value={business.name}
          check={checkShort}
          onChange={(name) => edit('company name', (b) => ({ ...b, name }))}
        />
        <TextField
          label="Your name"
          value={business.ownerName}
          check={checkShort}
          onChange={(ownerName) => edit('your name', (b) => ({ ...b, ownerName }))}
        />
      </Fields>
      <AddressFields
        address={business.address}
        onChange={(change) => edit('company address', (b) => ({ ...b, address: { ...b.address, ...change } }))}
      />
      <Fields>
        <Field
          label="Country"
          value={business.address.country}
          parse={parseCountry}
          format={(code) => code}
          emptyMessage="Enter a country as two letters, such as US."
          hint={countryName(business.address.country) ?? undefined}
          onChange={(country) => edit('country', (b) => ({ ...b, address: { ...b.address, country } }))}
        />
        <TextField
          label="Phone"
          kind="tel"
          value={business.phone}
          check={checkPhone}
          onChange={(phone) => edit('company phone', (b) => ({ ...b, phone }))}
        />
        <TextField
          label="Email"
          kind="email"
          value={business.email}
          check={checkEmail}
          onChange={(email) => edit('company email', (b) => ({ ...b, email }))}
        />
      </Fields>
      <LogoField mark={business.mark} onChange={(mark) => edit('company logo', (b) => ({ ...b, mark }))} />
    </SettingsPart>
  );
}
