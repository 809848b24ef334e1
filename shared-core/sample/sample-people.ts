/** The sample's company, customers, and properties: all invented. */
import { FOOT_M } from '../measure/length-units.ts';
import type { Business } from '../book/business.ts';
import { SAMPLE_COMPANY } from '../book/sample-company.ts';
import { newContractTerms } from '../book/contract-terms.ts';
import type { Customer } from '../book/customer.ts';
import { newCustomer, newProperty } from '../book/new-records.ts';
import type { Property } from '../book/property.ts';
import { newBusiness } from '../book/typical-business.ts';
import { FINISHED_CUSTOMER, FINISHED_HOUSE } from './finished-jobs.ts';
import { SAMPLE_ZONE } from './sample-time.ts';

const CITY = { city: SAMPLE_COMPANY.city, region: 'NY', zip: '', country: 'US' } as const;

/** The invented business. */
export function sampleBusiness(now: string): Business {
  const { line, city: _, paymentCode, ...printed } = SAMPLE_COMPANY;
  return {
    ...newBusiness(now, SAMPLE_ZONE, 'en-US'),
    ...printed,
    address: { line, ...CITY },
    contract: {
      ...newContractTerms(),
      paymentMethods: 'check, bank transfer, or card',
      lateChargeShare: 0.01,
      warrantyMonths: 12,
      paymentCode,
    },
    lienRules: [{ state: CITY.region, noticeDays: null, lienDays: 120 }],
    taxRates: [{ id: 'sales', name: 'Sales tax on materials', rate: 0.08 }],
    nextJobSerial: 34,
  };
}

type Who = {
  readonly id: string;
  readonly name: string;
  readonly phone: string;
  readonly contacts: Customer['contacts'];
  readonly notes?: string;
};

const CUSTOMERS: readonly Who[] = [
  {
    id: 'sample-odell',
    name: 'Vivian and Tom Odell',
    phone: '555-0117',
    contacts: [
      { name: 'Vivian Odell', role: 'decision maker; call after 4 pm', phone: '555-0117', email: '' },
      { name: 'Tom Odell', role: 'home most mornings', phone: '555-0118', email: '' },
      { name: 'Ilse Maron', role: 'installs the oak', phone: '555-0163', email: '' },
    ],
  },
  {
    id: 'sample-abara',
    name: 'Adaeze Abara and Jonas Finch',
    phone: '555-0129',
    contacts: [{ name: 'Adaeze Abara', role: 'decision maker', phone: '555-0129', email: '' }],
  },
  {
    id: 'sample-lindqvist',
    name: 'Maja and Per Lindqvist',
    phone: '555-0134',
    contacts: [{ name: 'Maja Lindqvist', role: 'decision maker', phone: '555-0134', email: '' }],
  },
  { id: 'sample-rusk', name: 'Marian Rusk', phone: '555-0151', contacts: [], notes: 'Prefers mail to phone calls.' },
  { id: 'sample-tremaine', name: 'Dale Tremaine', phone: '555-0170', contacts: [] },
  { id: 'sample-haldane', name: 'Priya Haldane', phone: '555-0186', contacts: [] },
  { id: 'sample-brandt', name: 'Otto Brandt', phone: '555-0193', contacts: [] },
  {
    id: FINISHED_CUSTOMER,
    name: 'Calder Row Rentals',
    phone: '555-0108',
    contacts: [{ name: 'Nell Castor', role: 'property manager', phone: '555-0109', email: '' }],
  },
];

/** The invented customers. */
export function sampleCustomers(now: string): Customer[] {
  return CUSTOMERS.map(({ id, name, phone, contacts, notes }) => ({
    ...newCustomer({ id, now }, name),
    phone,
    contacts,
    notes: notes ?? '',
  }));
}

type House = Pick<Property, 'id' | 'customerId' | 'yearBuilt' | 'yearExtended' | 'access' | 'travelKm' | 'notes'> & {
  readonly line: string;
};
/** An access note; `atFt` is its place on the property plan, feet. */
const note = (letter: string, text: string, atFt?: readonly [number, number]) => ({
  letter,
  text,
  point: atFt === undefined ? null : { xM: atFt[0] * FOOT_M, yM: atFt[1] * FOOT_M },
});

const HOUSES: readonly House[] = [
  {
    id: 'sample-pennant-hill',
    customerId: 'sample-odell',
    line: '41 Pennant Hill Road',
    yearBuilt: 1951,
    yearExtended: 1988,
    travelKm: 18,
    access: [
      note('K', 'The neighbor at number 43 has the key. The back door sticks: lift, then push.', [18.5, 2]),
      note('W', 'Water in the laundry, 3 gallons per minute.', [12.2, 1.4]),
      note('P', 'Breaker panel behind the clock. Two 15 A circuits: one mixer on each.', [1.2, 4]),
      note('', 'Park in the driveway. 60 ft and two steps to the front door. Friendly dog.'),
    ],
    notes: '',
  },
  {
    id: 'sample-sallow-lane',
    customerId: 'sample-abara',
    line: '117 Sallow Lane',
    yearBuilt: 1938,
    yearExtended: null,
    travelKm: 9,
    access: [note('K', 'Ring the bell. One of them works from home.'), note('W', 'Water in the kitchen.')],
    notes: '',
  },
  {
    id: 'sample-coopers-wharf',
    customerId: 'sample-lindqvist',
    line: '8 Cooper’s Wharf',
    yearBuilt: 1994,
    yearExtended: null,
    travelKm: 14,
    access: [note('', 'The van can park in front until 10 am.')],
    notes: '',
  },
  {
    id: 'sample-ferry-street',
    customerId: 'sample-rusk',
    line: '260 Ferry Street',
    yearBuilt: 1926,
    yearExtended: 1971,
    travelKm: 11,
    access: [note('P', 'Old fuse box: bring the generator.')],
    notes: '',
  },
  {
    id: 'sample-old-orchard',
    customerId: 'sample-tremaine',
    line: '3 Old Orchard Court',
    yearBuilt: 2003,
    yearExtended: null,
    travelKm: 22,
    access: [],
    notes: '',
  },
  {
    id: FINISHED_HOUSE,
    customerId: FINISHED_CUSTOMER,
    line: '8 Calder Row',
    yearBuilt: 1987,
    yearExtended: null,
    travelKm: 12,
    access: [note('K', 'Keys at the front desk.')],
    notes: '',
  },
];

/** The invented properties. */
export function sampleProperties(now: string): Property[] {
  return HOUSES.map(({ id, customerId, line, ...rest }) => ({
    ...newProperty({ id, now }, customerId, { line, ...CITY }, SAMPLE_ZONE),
    ...rest,
  }));
}
