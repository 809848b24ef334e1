/** Who is on site by name, and at which station. */
import type { Crew, PourPlan } from '../book/job.ts';
import { USUAL_HANDS } from '../material/crew-hours.ts';

/** Stations of a pour, in the order the mix passes them. */
export type StationName = NonNullable<Crew['stations']>[number]['station'];

/**
 * Those on site beside the owner, who is always there.
 * @param ownerName as the business has it; names are compared without case and outer blanks
 */
export function helpersOf(crewNames: readonly string[], ownerName: string): readonly string[] {
  const plain = (name: string) => name.trim().toLocaleLowerCase();
  return crewNames.filter((name) => plain(name) !== plain(ownerName));
}

/**
 * How many help with a room's pour beside the owner: by the pour plan, else by the names on the job, else the usual crew. Prep,
 * estimate, pour, documents and calendar all count them here.
 */
export function helperCount(plan: PourPlan | null, crewNames: readonly string[], ownerName: string): number {
  if (plan !== null) return Math.max(0, plan.crew.mixers + plan.crew.carriers + plan.crew.spreaders - 1);
  return crewNames.length === 0 ? USUAL_HANDS.helpers : helpersOf(crewNames, ownerName).length;
}

/** Names at a station, those on site only, in the order of the crew's list. */
export function namesAt(crew: Pick<Crew, 'stations'>, crewNames: readonly string[], station: StationName): readonly string[] {
  return crewNames.filter((name) => crew.stations?.some((s) => s.name === name && s.station === station) === true);
}

/** The crew with one person's station set; null takes the user from every station. */
export function withStation(crew: Crew, name: string, station: StationName | null): Crew {
  const others = (crew.stations ?? []).filter((s) => s.name !== name);
  return { ...crew, stations: station === null ? others : [...others, { name, station }] };
}

/** Where the names at the stations and the plan's numbers differ: `Two mix by plan, and three are named for it.` Empty when they agree. */
export function stationQuestions(crew: Crew, crewNames: readonly string[]): readonly string[] {
  const planned: readonly [StationName, number, string][] = [
    ['mixing', crew.mixers, 'mixing'],
    ['carrying', crew.carriers, 'carrying'],
    ['spreading', crew.spreaders, 'spreading'],
  ];
  return planned.flatMap(([station, count, word]) => {
    const named = namesAt(crew, crewNames, station).length;
    return named > count ? [`${named} ${named === 1 ? 'is' : 'are'} named for ${word}, and the plan has ${count}.`] : [];
  });
}
