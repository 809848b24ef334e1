/**
 * Cautions shown in place, where the work can hurt someone. Short on purpose: they point to the data sheet, local
 * codes and licensed practice, and approve nothing.
 */

export type CautionId = 'silica' | 'asbestos' | 'lead' | 'wet-cement' | 'lifting' | 'electricity' | 'solvents' | 'slips' | 'floor-weight';

/** A caution with where it comes from. */
export type Caution = { readonly id: CautionId; readonly says: string; readonly source: string };

/** Every caution, once. */
export const CAUTIONS: Readonly<Record<CautionId, Caution>> = {
  silica: {
    id: 'silica',
    says: 'Stone and cement dust scars lungs. Grind only with shroud and HEPA vacuum or water, never sweep dry; pouring powder from bags raises dust too, so wear a mask and keep the vacuum at the bucket.',
    source: '29 CFR 1926.1153, Table 1; mixing is not in the table',
  },
  asbestos: {
    id: 'asbestos',
    says: 'Old flooring and its adhesive may hold asbestos. Do not sand, dry sweep, scrape, drill, saw or chip it until a laboratory has answered; local rules decide, and licensed removers take it out.',
    source: '29 CFR 1926.1101; ASTM F2170 clause 7.1',
  },
  lead: {
    id: 'lead',
    says: 'Old paint may hold lead, which harms children most. Neither sand nor scrape it untested; certified renovators and local rules decide.',
    source: '40 CFR 745, subpart E',
  },
  'wet-cement': {
    id: 'wet-cement',
    says: 'Wet cement burns without hurting at first. Gloves, goggles, long sleeves, waterproof boots and knee pads; rinse skin at once with plenty of clean water, eyes for a quarter of an hour and to a doctor.',
    source: 'pH 12 to 13; NIOSH/CPWR guide to skin protection; the data sheet',
  },
  lifting: {
    id: 'lifting',
    says: 'A full bag from the floor is more than one person should lift often. Lift two together, or use a cart and stack bags at knee height.',
    source: 'NIOSH 94-110, lifting equation',
  },
  electricity: {
    id: 'electricity',
    says: 'Mixers and water share this floor. Power only through a ground-fault (residual-current) device, cables off the wet floor, plugs dry.',
    source: 'common practice; local electrical code',
  },
  solvents: {
    id: 'solvents',
    says: 'Some primers give off fumes. Read the sheet, air the room as it says, no flame.',
    source: 'common practice; the data sheet',
  },
  slips: { id: 'slips', says: 'Primed and poured floors are slippery. Keep the way out dry and clear.', source: 'common practice' },
  'floor-weight': {
    id: 'floor-weight',
    says: 'Spread stacked bags along walls and over several joists. This program checks no structure: in doubt ask a structural engineer.',
    source: 'common practice',
  },
};
