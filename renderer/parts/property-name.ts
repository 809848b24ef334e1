/** What a property is called: its street address, or that the address is still missing. */
import type { Property } from '../../shared-core/book/property.ts';

/** The street address; `Address not recorded` while there is none. */
export function propertyName(property: Pick<Property, 'address'>): string {
  return property.address.line.trim() === '' ? 'Address not recorded' : property.address.line;
}
