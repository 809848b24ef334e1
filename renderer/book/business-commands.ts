/** Changes to the company record. */
import type { Business } from '../../shared-core/book/business.ts';
import { nowInstant, type Outcome } from './command.ts';
import { change, type Update } from './write.ts';

export function changeBusiness(label: string, edit: Update<Business>): Promise<Outcome> {
  return change('business', 'business', label, nowInstant(), edit);
}

/** Deletes a tax rate. What it applied to is no longer taxed. */
export function removeTaxRate(id: string): Promise<Outcome> {
  return changeBusiness('delete tax rate', (b) => ({
    ...b,
    taxRates: b.taxRates.filter((rate) => rate.id !== id),
    pricing: {
      ...b.pricing,
      materialTaxId: b.pricing.materialTaxId === id ? null : b.pricing.materialTaxId,
      laborTaxId: b.pricing.laborTaxId === id ? null : b.pricing.laborTaxId,
    },
  }));
}
