/** Changes to the business's own record. */
import type { Business } from '../../shared-core/book/business.ts';
import { nowInstant } from './moment.ts';
import type { Outcome } from './outcome.ts';
import { change } from './write.ts';

/** Changes the business's record by a pure function of it. */
export function changeBusiness(label: string, how: (business: Business) => Business): Promise<Outcome> {
  return change('business', 'business', label, nowInstant(), how);
}

/** Takes a tax rate out; what was taxed at it is not taxed then. */
export function removeTaxRate(id: string): Promise<Outcome> {
  return changeBusiness('took a tax rate out', (b) => ({
    ...b,
    taxRates: b.taxRates.filter((rate) => rate.id !== id),
    pricing: {
      ...b.pricing,
      materialTaxId: b.pricing.materialTaxId === id ? null : b.pricing.materialTaxId,
      laborTaxId: b.pricing.laborTaxId === id ? null : b.pricing.laborTaxId,
    },
  }));
}
