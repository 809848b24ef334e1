/** Names of the people on site and their stations. */
import type { Crew, PourPlan } from '../book/job.ts';
import { USUAL_HANDS } from '../material/crew-hours.ts';

/** Stations of a pour, in the order of the work. */
export type StationName = NonNullable<Crew['stations']>[number]['station'];

/**
 * People on site other than the owner, who is always on site.
 * @param ownerName from the company settings; names are compared without case and surrounding spaces
 */
export function helpersOf(crewNames: readonly string[], ownerName: string): readonly string[] {
  const plain = (name: string) => name.trim().toLocaleLowerCase();
  return crewNames.filter((name) => plain(name) !== plain(ownerName));
}

/**
 * Number of helpers for a room's pour: from the pour plan, else from the names on the job, else from the usual crew. Prep,
 * estimate, pour, documents and calendar all use this count.
 */
export function helperCount(plan: PourPlan | null, crewNames: readonly string[], ownerName: string): number {
  if (plan !== null) return Math.max(0, plan.crew.mixers + plan.crew.carriers + plan.crew.spreaders - 1);
  return crewNames.length === 0 ? USUAL_HANDS.helpers : helpersOf(crewNames, ownerName).length;
}

/** Names at a station, only those on site, in the order of the crew list. */
export function namesAt(crew: Pick<Crew, 'stations'>, crewNames: readonly string[], station: StationName): readonly string[] {
  return crewNames.filter((name) => crew.stations?.some((s) => s.name === name && s.station === station) === true);
}

/** The crew with one person's station set; null removes the person from every station. */
export function withStation(crew: Crew, name: string, station: StationName | null): Crew {
  const others = (crew.stations ?? []).filter((s) => s.name !== name);
  return { ...crew, stations: station === null ? others : [...others, { name, station }] };
}

export type StationOver = { readonly station: StationName; readonly named: number; readonly planned: number };

/** The stations with more people named than the plan has there; empty when they agree. */
export function stationsOver(crew: Crew, crewNames: readonly string[]): readonly StationOver[] {
  const over = (station: StationName, planned: number): StationOver[] => {
    const named = namesAt(crew, crewNames, station).length;
    return named > planned ? [{ station, named, planned }] : [];
  };
  return [...over('mixing', crew.mixers), ...over('carrying', crew.carriers), ...over('spreading', crew.spreaders)];
}
