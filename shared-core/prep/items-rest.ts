/**
 * Lines for a floor that an earlier pour left open or with defects: the edges to prepare, the part to read again, the patches.
 * Repairs are common practice, no source; the data sheet comes first.
 */
import type { CautionId } from '../substrate/cautions.ts';
import { isCutByHand, meters, type PrepDraft, type PrepInput, type RestWork, slabCaution, squareMeters } from './prep-input.ts';
import { hoursFor } from './task-hours.ts';

type Defect = RestWork['patches'][number]['defect'];

const PATCH: Readonly<Record<Defect, Pick<PrepDraft, 'what' | 'why' | 'tasks' | 'cautions' | 'dust'>>> = {
  pinholes: {
    what: 'Pinholes: abrade, vacuum, prime, and skim with patch',
    why: 'air rose through the primer',
    tasks: ['sand'],
    cautions: ['silica'],
    dust: null,
  },
  ridge: {
    what: 'Ridge: grind it flush with a shrouded grinder, and vacuum',
    why: 'an edge set before the next lane met it',
    tasks: ['grind'],
    cautions: ['silica'],
    dust: 'hand-grinder',
  },
  hollow: {
    what: 'Hollow spot: cut out to sound substrate, square the edge, vacuum, prime, and refill',
    why: 'it is not bonded and will crack',
    tasks: ['drill', 'scrape'],
    cautions: ['silica'],
    dust: 'chipping-hammer',
  },
  'low-spot': {
    what: 'Low spot: abrade, vacuum, prime, and fill to the straightedge',
    why: 'under the promised flatness',
    tasks: ['sand'],
    cautions: ['silica'],
    dust: null,
  },
};

const HOURS = { pinholes: 'skimPatch', ridge: 'grindSpot', hollow: 'openHollow', 'low-spot': 'skimPatch' } as const;

/** The lines; none where nothing is left of an earlier pour. */
export function restItems(input: PrepInput): readonly PrepDraft[] {
  const { rest } = input;
  if (rest === null || rest === undefined) return [];
  const items = [...openItems(rest, isCutByHand(input)), ...patchItems(rest, slabCaution(input.facts)), ...checkItems(rest)];
  // This work is on the placed floor itself.
  return items.map((line) => (line.phase === 'prime' ? line : { ...line, afterLift: 'stays' }));
}

function openItems({ openM2, jointM, sinceHours }: RestWork, byHand: boolean): PrepDraft[] {
  if (openM2 <= 0 || jointM <= 0) return [];
  const since = sinceHours === null ? '' : `; placed ${sinceHours === 1 ? '1 hour' : `${sinceHours} hours`} ago`;
  return [
    {
      key: 'rest-edge',
      phase: 'surface',
      what: byHand
        ? 'Abrade the placed edge by hand, and remove what is feathered or loose. Do not cut or grind it'
        : 'Cut or grind the placed edge back to full depth, straight and square',
      why: `new material does not bond to a feathered or dusty edge${since}`,
      amount: meters(jointM),
      tasks: byHand ? [] : ['grind'],
      cautions: ['silica'],
      dust: byHand ? null : 'hand-grinder',
      hours: hoursFor('cutEdge', jointM),
    },
    {
      key: 'rest-clean',
      phase: 'surface',
      what: 'Vacuum the open floor and the edge, remove splashes and loose primer',
      why: 'work since the first pour left dust and drips',
      amount: squareMeters(openM2),
      hours: hoursFor('vacuum', openM2),
    },
    {
      key: 'rest-read',
      phase: 'surface',
      what: 'Read the open floor again, with at least 2 points on the placed floor',
      why: 'the rest must match the elevation of the placed floor',
    },
    {
      key: 'rest-prime-edge',
      phase: 'prime',
      what: 'Prime the placed edge as well',
      why: 'a bare edge draws water out of the mix',
      amount: meters(jointM),
      cautions: ['primer'],
    },
  ];
}

/** @param ofSlab the caution of cutting out down to a slab */
function patchItems({ patches }: RestWork, ofSlab: readonly CautionId[]): PrepDraft[] {
  return (Object.keys(PATCH) as Defect[]).flatMap((defect): PrepDraft[] => {
    const areas = patches.filter((patch) => patch.defect === defect).map((patch) => patch.areaM2);
    if (areas.length === 0) return [];
    const areaM2 = areas.reduce((sum, area) => sum + area, 0);
    const { why, cautions = [], ...work } = PATCH[defect];
    return [
      {
        ...work,
        cautions: defect === 'hollow' ? [...cautions, ...ofSlab] : cautions,
        key: `patch-${defect}`,
        phase: 'make-sound',
        why: areas.length === 1 ? why : `${areas.length} areas marked; ${why}`,
        amount: squareMeters(areaM2),
        holdsPour: false,
        hours: hoursFor(HOURS[defect], areaM2),
      },
    ];
  });
}

function checkItems({ toCheckM2, toCheckBatches }: RestWork): PrepDraft[] {
  if (toCheckM2 <= 0) return [];
  const batchWords =
    toCheckBatches.length === 0 ? '' : ` (${toCheckBatches.length === 1 ? 'batch' : 'batches'} ${toCheckBatches.join(', ')})`;
  return [
    {
      key: 'rest-check',
      phase: 'make-sound',
      what: `Check the suspect floor${batchWords}: scratch and tap it once it is hard, then mark it sound or removed on Pour`,
      why: 'soft or hollow material does not carry flooring',
      amount: squareMeters(toCheckM2),
      holdsPour: false,
      hours: hoursFor('tapFloor', toCheckM2),
    },
  ];
}
