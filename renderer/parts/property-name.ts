import type { Property } from '../../shared-core/book/property.ts';

/** The street address, or `Address not recorded`. */
export function propertyName(property: Pick<Property, 'address'>): string {
  return property.address.line.trim() === '' ? 'Address not recorded' : property.address.line;
}
