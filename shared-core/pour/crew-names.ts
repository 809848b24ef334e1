/** Names of the people on site and their stations. */
import type { Business } from '../book/business.ts';
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

/** What of the company settings decides the crew of a job that names none. */
export type CrewSettings = Pick<Business, 'ownerName' | 'crewSize'>;

/** Number of helpers in a pour plan. */
export const helpersIn = ({ crew }: Pick<PourPlan, 'crew'>): number => Math.max(0, crew.mixers + crew.carriers + crew.spreaders - 1);

/**
 * Number of helpers for a room's pour: from the pour plan, else from the names on the job, else from the company settings, else the typical
 * crew. Prep, estimate, pour, documents and calendar all use this count.
 */
export function helperCount(plan: PourPlan | null, crewNames: readonly string[], { ownerName, crewSize }: CrewSettings): number {
  if (plan !== null) return helpersIn(plan);
  if (crewNames.length > 0) return helpersOf(crewNames, ownerName).length;
  return crewSize === undefined ? USUAL_HANDS.helpers : crewSize - 1;
}

/** Whether the number of helpers is the typical one, which nobody entered. */
export const isTypicalCrew = (plan: PourPlan | null, crewNames: readonly string[], business: CrewSettings): boolean =>
  crewNames.length === 0 && business.crewSize === undefined && helperCount(plan, crewNames, business) === USUAL_HANDS.helpers;

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
