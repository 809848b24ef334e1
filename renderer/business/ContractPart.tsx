import {
  type ClauseTopic,
  CONTRACT_FIELDS,
  CONTRACT_KEYS,
  type ContractKey,
  type ContractTerms,
} from '../../shared-core/book/contract-terms.ts';
import { STARTER_CLAUSES } from '../../shared-core/documents/clauses.ts';
import { CheckRow } from '../parts/Choices.tsx';
import { Fields, NumberField, PercentField, TextField, checkLong } from '../parts/Fields.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import type { BusinessPart } from './business-edit.ts';
import { clausesSummary, contractSummary } from './part-summaries.ts';
import { SettingsPart } from './SettingsPart.tsx';

const MOST_MONTHS = 600;

export function ContractPart({ business, edit }: BusinessPart) {
  const set = (label: string, change: Partial<ContractTerms>): void =>
    edit(label.toLowerCase(), (b) => ({ ...b, contract: { ...b.contract, ...change } }));
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
  const text = typeof value === 'string' ? value : '';
  return kind === 'long' ? (
    <TextField label={label} hint={hint} value={text} onChange={set} long check={checkLong} />
  ) : (
    <TextField label={label} hint={hint} value={text} onChange={set} />
  );
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
              check={checkLong}
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
