import type { Business } from '../../shared-core/book/business.ts';
import { leadCounts } from '../../shared-core/lead/lead-counts.ts';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { nowInstant } from '../book/now-instant.ts';
import { useAll } from '../book/use-records.ts';
import { BlockPart } from '../parts/Sheet.tsx';

/** Leads won and lost this year, with the reasons. Hidden when there are none. */
export function LeadCountsPart({ business }: { readonly business: Business }) {
  const leads = useAll('leads') ?? [];
  if (leads.length === 0) return null;
  const year = dayOfInstant(nowInstant(), business.timeZone).slice(0, 4);
  const { open, won, lost, lostFor } = leadCounts(leads, `${year}-01-01T00:00:00.000Z`);
  return (
    <BlockPart heading={`Leads, ${year}`}>
      <p data-testid="lead-counts">{`${open} open, ${won} won, ${lost} lost.`}</p>
      {lostFor.length > 0 && (
        <ul>
          {lostFor.map(({ reason, count }) => (
            <li key={reason} className="small">{`${reason}: ${count}`}</li>
          ))}
        </ul>
      )}
    </BlockPart>
  );
}
