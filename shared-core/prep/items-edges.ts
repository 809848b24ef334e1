/** Lines that keep the pour in the room and off the walls. */
import { isWood } from '../substrate/layer-words.ts';
import { found, item, meters, type PrepInput, squareMeters } from './prep-input.ts';
import type { PrepItem } from './prep-item.ts';
import { hoursFor } from './task-hours.ts';

/** Strip at the walls, dams, feathers, gaps and pipes, reinforcement. */
export function edgeItems(input: PrepInput): readonly PrepItem[] {
  const { facts } = input;
  const wood = facts.top !== null && isWood(facts.top.material);
  const items: PrepItem[] = [
    item({
      key: 'lane',
      phase: 'edges',
      what: 'Set the strip along walls and columns',
      why: wood ? 'timber moves, and needs room' : 'the new floor must not touch the walls',
      amount: meters(input.perimeterM),
      hours: input.perimeterM === null ? null : hoursFor('lane', input.perimeterM),
    }),
  ];
  const named = (edge: 'dam' | 'feather' | 'stop') =>
    facts.openings.filter((opening) => opening.edge === edge).toSorted((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
  const width = (openings: readonly { readonly widthM: number }[]): number =>
    openings
      .map((opening) => opening.widthM)
      .toSorted((a, b) => a - b)
      .reduce((sum, widthM) => sum + widthM, 0);
  const dams = [...named('dam'), ...named('stop')];
  if (dams.length > 0) {
    items.push(
      item({
        key: 'dams',
        phase: 'edges',
        what: dams.length === 1 ? 'Dam the opening' : `Dam ${dams.length} openings`,
        why: 'the pour runs out of every gap',
        amount: meters(width(dams)),
        hours: hoursFor('dam', dams.length),
        on: dams.map((opening) => opening.id),
      }),
    );
  }
  const feathers = named('feather');
  if (feathers.length > 0) {
    items.push(
      item({
        key: 'feathers',
        phase: 'edges',
        what: feathers.length === 1 ? 'Mark where the feather ends' : `Mark where ${feathers.length} feathers end`,
        why: 'the new floor runs out to the floor next door',
        amount: meters(width(feathers)),
        hours: hoursFor('feather', feathers.length),
        on: feathers.map((opening) => opening.id),
      }),
    );
  }
  const drains = facts.marks.filter((mark) => mark.kind === 'drain');
  if (drains.length > 0 || facts.hasDrain) {
    items.push(
      item({
        key: 'drains',
        phase: 'edges',
        what: 'Dam and cap the drain',
        why: 'cement in a drain stays there',
        on: drains.map((mark) => mark.id).toSorted(),
      }),
    );
  }
  const gaps = facts.marks.filter((mark) => mark.kind === 'gap' || mark.kind === 'pipe');
  if (gaps.length > 0 || wood) {
    items.push(
      item({
        key: 'gaps',
        phase: 'edges',
        what: wood ? 'Fill gaps, knots and pipe holes in the timber' : 'Seal gaps and pipe holes',
        why: wood ? 'open to what lies below: a pour finds every one' : 'the pour finds every one',
        amount: gaps.length > 0 ? { value: gaps.length, unit: 'place' } : null,
        hours: gaps.length > 0 ? hoursFor('sealGap', gaps.length) : null,
        on: gaps.map((mark) => mark.id).toSorted(),
      }),
    );
  }
  if (wood) {
    items.push(
      item({
        key: 'reinforce',
        phase: 'edges',
        what: 'Lay the reinforcement over the timber, as the sheet says',
        why: found(input, 'wood-no-gap').length > 0 ? 'timber moves, and has no gap at the walls' : 'timber moves under the pour',
        amount: squareMeters(facts.areaM2),
        hours: facts.areaM2 === null ? null : hoursFor('reinforce', facts.areaM2),
      }),
    );
  }
  return items;
}
