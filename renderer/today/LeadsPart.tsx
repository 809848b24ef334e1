import type { LeadLine } from '../../shared-core/agenda/lead-list.ts';
import { LinkWord } from '../parts/Buttons.tsx';
import { EntryWords } from './EntryWords.tsx';
import './today-leads.css';

interface LeadsPartProps {
  readonly lines: readonly LeadLine[];
}

/** Leads without a job, with the next step and its date. */
export function LeadsPart({ lines }: LeadsPartProps) {
  if (lines.length === 0) return null;
  return (
    <section className="today-leads" aria-labelledby="today-leads">
      <h2 className="caption" id="today-leads">
        Leads
      </h2>
      <ul>
        {lines.map(({ lead, customerId, verb, rest, when, late }) => (
          <li key={lead.id}>
            <LinkWord href={`/customers/${customerId}`} quiet>
              <EntryWords verb={verb} rest={rest} />
            </LinkWord>
            <span className={late ? 'late' : ''}>{when}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
