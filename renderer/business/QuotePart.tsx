import { Fields, NumberField, PercentField, QuantityField, TextField } from '../parts/Fields.tsx';
import { type BusinessPart, calculationSummary, quoteSummary, SettingsPart, clausesSummary, contractSummary } from './SettingsPart.tsx';
import {
  type ClauseTopic,
  CONTRACT_FIELDS,
  CONTRACT_KEYS,
  type ContractKey,
  type ContractTerms,
} from '../../shared-core/book/contract-terms.ts';
import { STARTER_CLAUSES } from '../../shared-core/documents/clauses.ts';
import { CheckRow } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { lowerFirst } from '../../shared-core/measure/first-letter.ts';

const LONGEST_DAYS = 365;

export function QuotePart({ business, edit }: BusinessPart) {
  return (
    <SettingsPart
      heading="Quotes"
      text="Applies to new quotes. Issued quotes stay as they are."
      fold={{ key: 'quotes', summary: quoteSummary(business) }}
    >
      <Fields>
        <NumberField
          label="Quote validity"
          unit="days"
          whole
          least={1}
          most={LONGEST_DAYS}
          value={business.quoteValidDays}
          emptyMessage="Enter a number of days, such as 30."
          onChange={(quoteValidDays) => edit('quote validity', { quoteValidDays })}
        />
        <PercentField
          label="Deposit"
          value={business.pricing.depositShare}
          emptyMessage="Enter a percent, or 0."
          hint="For new jobs. Some states limit deposits by law."
          onChange={(depositShare) => edit('deposit', (b) => ({ ...b, pricing: { ...b.pricing, depositShare } }))}
        />
      </Fields>
      <TextField
        label="Terms"
        long
        value={business.quoteTerms}
        placeholder="Scope, exclusions, payment"
        onChange={(quoteTerms) => edit('terms', { quoteTerms })}
      />
    </SettingsPart>
  );
}

export function CalculationPart({ business, edit }: BusinessPart) {
  return (
    <SettingsPart
      heading="Bags and pours"
      text="Typical values until you change them."
      fold={{ key: 'bags', summary: calculationSummary(business) }}
    >
      <Fields>
        <PercentField
          label="Enough bags in"
          least={50}
          most={99}
          decimals={0}
          unit="of pours"
          value={business.bagPercentile}
          emptyMessage="Enter a percent from 50 to 99."
          hint="A higher percent leaves more bags unopened."
          onChange={(bagPercentile) => edit('enough bags', { bagPercentile })}
        />
        <PercentField
          label="Waste factor"
          value={business.usualLossShare}
          emptyMessage="Enter a percent, or 0."
          hint="Material left in buckets and hoses."
          onChange={(usualLossShare) => edit('waste factor', { usualLossShare })}
        />
        <QuantityField
          label="Mixing bucket"
          kind="liquid"
          value={business.bucketL}
          emptyMessage="Enter the size of your mixing bucket."
          check={(liters) => (liters > 0 ? null : 'Enter a bucket size greater than 0.')}
          hint="Filled to the brim. A batch that does not fit is flagged."
          onChange={(bucketL) => edit('mixing bucket', { bucketL })}
        />
        <PercentField
          label="Maximum cold joint risk"
          decimals={1}
          value={business.coldJointChance}
          emptyMessage="Enter a percent."
          hint="A pour plan above it is flagged."
          onChange={(coldJointChance) => edit('cold joint risk', { coldJointChance })}
        />
      </Fields>
    </SettingsPart>
  );
}

const MOST_MONTHS = 600;

export function ContractPart({ business, edit }: BusinessPart) {
  const set = (label: string, change: Partial<ContractTerms>): void =>
    edit(lowerFirst(label), (b) => ({ ...b, contract: { ...b.contract, ...change } }));
  return (
    <SettingsPart
      heading="Contract"
      text="Printed on quotes and contracts. Check the wording your state requires."
      fold={{ key: 'contract', summary: contractSummary(business) }}
    >
      <Fields wide>
        {CONTRACT_KEYS.filter((key) => CONTRACT_FIELDS[key].kind !== 'yes-no').map((key) => (
          <ContractInput key={key} of={key} terms={business.contract} onSet={set} />
        ))}
      </Fields>
      {CONTRACT_KEYS.filter((key) => CONTRACT_FIELDS[key].kind === 'yes-no').map((key) => (
        <ContractInput key={key} of={key} terms={business.contract} onSet={set} />
      ))}
    </SettingsPart>
  );
}

interface ContractInputProps {
  readonly of: ContractKey;
  readonly terms: ContractTerms;
  readonly onSet: (label: string, change: Partial<ContractTerms>) => void;
}

function ContractInput({ of: key, terms, onSet }: ContractInputProps) {
  const { label, kind, hint } = CONTRACT_FIELDS[key];
  const value = terms[key];
  const set = (next: string | number | boolean | null): void => onSet(label, { [key]: next });
  if (kind === 'yes-no') return <CheckRow label={label} because={hint} checked={value === true} onChange={set} />;
  if (kind === 'percent') return <PercentField label={label} hint={hint} value={typeof value === 'number' ? value : null} onChange={set} />;
  if (kind === 'months')
    return (
      <NumberField
        label={label}
        hint={hint}
        unit="months"
        whole
        least={0}
        most={MOST_MONTHS}
        value={typeof value === 'number' ? value : null}
        onChange={set}
      />
    );
  return <TextField label={label} hint={hint} value={typeof value === 'string' ? value : ''} onChange={set} />;
}

const TOPICS = Object.keys(STARTER_CLAUSES) as ClauseTopic[];

/** Clauses of the contract: starter text for each topic, or the company's own text. */
export function ClausesPart({ business, edit }: BusinessPart) {
  const { clauses } = business.contract;
  const set = (topic: ClauseTopic, text: string | null): void =>
    edit('contract clause', (b) => ({
      ...b,
      contract: {
        ...b.contract,
        clauses: [...b.contract.clauses.filter((clause) => clause.topic !== topic), ...(text === null ? [] : [{ topic, text }])],
      },
    }));
  return (
    <SettingsPart
      heading="Contract clauses"
      text="Starter text for each topic. Edit it, or clear it to leave the topic out. Words in braces are filled in. This is not legal advice."
      fold={{ key: 'clauses', summary: clausesSummary(business) }}
    >
      {TOPICS.map((topic) => {
        const own = clauses.find((clause) => clause.topic === topic);
        return (
          <div key={topic}>
            <TextField
              label={STARTER_CLAUSES[topic].title}
              long
              value={own?.text ?? STARTER_CLAUSES[topic].text}
              onChange={(text) => set(topic, text)}
            />
            {own !== undefined && (
              <TextButton kind="plain" label={`Use the starter text for ${STARTER_CLAUSES[topic].title}`} onPress={() => set(topic, null)}>
                Use starter text
              </TextButton>
            )}
          </div>
        );
      })}
    </SettingsPart>
  );
}
