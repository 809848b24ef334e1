/**
 * Cautions shown where the work can hurt someone. They point to the data sheet, local codes and licensed practice, and
 * approve nothing.
 */
import { MINOR_REPAIR_MOST_M2 } from './lead-paint.ts';
import type { Wording } from './wording.ts';

export type CautionId =
  | 'silica'
  | 'wood-dust'
  | 'sparks'
  | 'asbestos'
  | 'asbestos-found'
  | 'lead'
  | 'tendons'
  | 'wet-cement'
  | 'lifting'
  | 'electricity'
  | 'epoxy'
  | 'primer'
  | 'gas'
  | 'carbon-monoxide'
  | 'slips'
  | 'floor-weight';

/** A caution with where it comes from. Some name a quantity, in the units of the business. */
export type Caution = { readonly id: CautionId; readonly text: string | ((w: Wording) => string); readonly source: string };

/** How far a generator is kept from the openings of a building. CPSC, second-hand. */
export const generatorDistance = ({ units }: Pick<Wording, 'units'>): string => (units === 'us' ? '20 ft' : '6 m');

/** The text of a caution. */
export function cautionText(id: CautionId, wording: Wording): string {
  const { text } = CAUTIONS[id];
  return typeof text === 'string' ? text : text(wording);
}

/** Every caution, once. */
export const CAUTIONS: Readonly<Record<CautionId, Caution>> = {
  silica: {
    id: 'silica',
    text: 'Silica dust scars lungs. Use a shroud, a HEPA vacuum, and a NIOSH-approved, fit-tested respirator where needed. Never dry sweep or brush. Keep a written exposure control plan.',
    source: '29 CFR 1926.1153(c), (f), (g)',
  },
  'wood-dust': {
    id: 'wood-dust',
    text: 'Wood dust harms lungs and can catch fire. Sand with a vacuum on the machine and wear a fit-tested N95 or better.',
    source: 'common practice; the machine’s instructions',
  },
  sparks: {
    id: 'sparks',
    text: 'Grinding metal throws sparks. First clear out what burns, solvent fumes and dust. Keep a fire extinguisher at hand and watch for fire afterward. Local rules on hot work apply.',
    source: 'common practice; local fire code on hot work',
  },
  asbestos: {
    id: 'asbestos',
    text: 'Old flooring and its adhesive may contain asbestos. Do not sand, dry sweep, scrape, drill, saw or chip it before the lab result. Local rules apply, and a licensed abatement contractor removes it.',
    source: '29 CFR 1926.1101; ASTM F2170 clause 7.1',
  },
  'asbestos-found': {
    id: 'asbestos-found',
    text: 'A lab detected asbestos in this floor. Do not sand, dry sweep, scrape, drill, saw, chip or remove it. Stop if any of it breaks. Only a licensed abatement contractor disturbs it, and local rules apply.',
    source: '29 CFR 1926.1101; ASTM F2170 clause 7.1',
  },
  lead: {
    id: 'lead',
    text: (w) =>
      `Paint and varnish from before 1978 may contain lead, on floors too. Over ${w.area(MINOR_REPAIR_MOST_M2)} per room the firm must be EPA-certified. No dry sanding or scraping before a test. OSHA’s lead rule covers any amount, and state rules may be stricter.`,
    source: '40 CFR 745, subpart E; 29 CFR 1926.62',
  },
  tendons: {
    id: 'tendons',
    text: 'A post-tensioning tendon that is cut can kill. If the slab is post-tensioned, or that is unknown, have the tendons located by scan before any hole, chipping or saw cut.',
    source: 'common practice',
  },
  'wet-cement': {
    id: 'wet-cement',
    text: 'Wet cement burns skin without hurting at first. Wear alkali-resistant gloves, goggles, sleeves, boots. Do not kneel in it. Take off soaked clothes and rinse skin at once. Rinse eyes 15 minutes and see a doctor.',
    source: 'pH 12 to 13; NIOSH/CPWR guide to skin protection; the data sheet',
  },
  lifting: {
    id: 'lifting',
    text: 'A full bag is too heavy for one person to lift often. Use two people per bag, or a cart, and stack bags at knee height.',
    source: 'NIOSH 94-110, lifting equation',
  },
  electricity: {
    id: 'electricity',
    text: 'Mixers and water share this floor. Use GFCI-protected outlets, keep cords off the wet floor and plugs dry.',
    source: 'common practice; local electrical code',
  },
  epoxy: {
    id: 'epoxy',
    text: 'Epoxy can cause a lasting skin allergy. Wear nitrile gloves and sleeves, keep it off the skin, and ventilate as its data sheet says.',
    source: 'common practice; the data sheet',
  },
  primer: {
    id: 'primer',
    text: 'Wear gloves and eye protection, and ventilate as the primer’s data sheet says.',
    source: 'common practice; the data sheet',
  },
  gas: {
    id: 'gas',
    text: 'Dust and fumes meet flames, and heaters without a vent give off carbon monoxide. A licensed plumber or the utility handles gas appliances.',
    source: 'common practice; local fuel gas code',
  },
  'carbon-monoxide': {
    id: 'carbon-monoxide',
    text: (w) =>
      `Engines, and heaters without a vent, give off carbon monoxide: no smell, and deadly. Run a generator outdoors only, ${generatorDistance(w)} or more from doors, windows and vents, never in a garage or basement. Use vented heaters. Headache or dizziness: everyone out.`,
    source: 'CPSC on portable generators, 20 ft; the heater’s instructions' /* second-hand */,
  },
  slips: { id: 'slips', text: 'Primed and poured floors are slippery. Keep the exit dry and clear.', source: 'common practice' },
  'floor-weight': {
    id: 'floor-weight',
    text: (w) =>
      `Ten ${w.units === 'us' ? '50 lb bags in one stack load about 250 psf' : '25 kg bags in one stack load about 13 kN/m²'}. On joists stack four or five at most, spread out, along bearing walls. This is not a structural check: ask a structural engineer if in doubt.`,
    source: 'arithmetic: ten bags on 2 sq ft; a 40 psf floor is usual',
  },
};
