/** A room's assessment from its records: the facts, the findings, the tests still wanting, and how it stands. */
import type { UnitSystem } from '../book/business.ts';
import type { JobRoom } from '../book/job.ts';
import type { Material } from '../book/material.ts';
import type { Property } from '../book/property.ts';
import type { Room } from '../book/room.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { roomAreaM2 } from '../plan/region.ts';
import { type AirFacts, type FloorFacts, floorFacts, type ProductFacts } from '../substrate/floor-facts.ts';
import { type OddContext, questionsAboutLayer, questionsAboutTest } from '../substrate/odd-readings.ts';
import type { Finding, Verdict } from '../substrate/rule.ts';
import { findingsOf, holdsOn, verdictOf } from '../substrate/rules.ts';
import { isStale } from '../substrate/test-counts.ts';
import type { TestNeed } from '../substrate/test-needs.ts';
import { type TestOf, testsOf } from '../substrate/tests-of.ts';
import { wordingFor } from '../substrate/wording.ts';
import { DEW_MARGIN, dewMargin } from '../climate/dew-margin.ts';
import { evaporation } from '../climate/evaporation.ts';

/** The records an assessment reads, with figures other parts compute. */
export type AssessInput = {
  readonly room: Room;
  /** Null for a room that is in no job yet. */
  readonly jobRoom: JobRoom | null;
  readonly property: Property;
  readonly units: UnitSystem;
  readonly locale: string;
  /** The powder chosen; null while none is. */
  readonly material: Material | null;
  /** What goes down before the pour; null while none is chosen. */
  readonly primer: Material | null;
  /** What the pour adds, pascals; null while there is no estimate. */
  readonly addedLoadPa: number | null;
  /** The finished level on the scale of the openings' heights; null while it is not decided. */
  readonly finishedLevelM: number | null;
  readonly now: string;
};

/** A question about something typed, and where it stands. */
export type Question = { readonly about: string; readonly says: string };

/** How a room's floor stands. */
export type Assessment = {
  readonly facts: FloorFacts;
  readonly findings: readonly Finding[];
  readonly needs: readonly TestNeed[];
  readonly verdict: Verdict;
  readonly holdsPour: readonly Finding[];
  readonly questions: readonly Question[];
};

/** The day's air with dew point, margin and evaporation; null without a reading of the last hours. */
export function airFacts(tests: Room['tests'], units: UnitSystem, now: string): AirFacts | null {
  const test: TestOf<'air'> | undefined = testsOf(tests, 'air')
    .filter((one) => Date.parse(one.takenAt) <= Date.parse(now))
    .at(-1);
  if (test === undefined || isStale('air', test.takenAt, now)) return null;
  const { airTempC, relativeHumidity, surfaceTempC, airSpeedMPerS } = test;
  const margin = surfaceTempC === null ? null : dewMargin(airTempC, relativeHumidity, surfaceTempC, units);
  const rate = surfaceTempC === null ? null : evaporation(surfaceTempC, airTempC, relativeHumidity, airSpeedMPerS ?? 0);
  return {
    test,
    dewPointC: margin?.dewPointC ?? null,
    marginC: margin?.marginC ?? null,
    marginLeastC: DEW_MARGIN[units].leastC,
    marginPasses: margin?.passes ?? false,
    marginRule: DEW_MARGIN[units].rule,
    evaporationKgM2H: airSpeedMPerS === null ? null : (rate?.kgM2H ?? null),
    // Whether water settles hangs on the temperatures alone; the draft only makes it quicker.
    condenses: rate?.condenses ?? false,
  };
}

function productOf(material: Material | null): ProductFacts | null {
  return material === null || material.powder === null ? null : { kind: material.kind, powder: material.powder };
}

/** Assesses a room. Readings dated after `now` are asked about and count for nothing. */
export function assessRoom(input: AssessInput): Assessment {
  const { room, jobRoom, property } = input;
  const wording = wordingFor(input.units, input.locale);
  const made = room.tests.filter((test) => Date.parse(test.takenAt) <= Date.parse(input.now));
  const facts = floorFacts(
    {
      layers: room.layers,
      tests: made,
      marks: room.marks.toSorted((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0)),
      openings: room.plan.openings.toSorted((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0)),
      circumstances: room.circumstances,
      hasDrain: room.plan.holes.some((hole) => hole.kind === 'drain'),
      areaM2: room.plan.outline.length < 3 ? null : roomAreaM2(room.plan),
      yearBuilt: property.yearBuilt,
      flooring: jobRoom?.flooring ?? null,
      flooringLimits: jobRoom?.flooringLimits ?? null,
      levelMode: jobRoom?.level.mode ?? 'level',
      product: productOf(input.material),
      primerKind: input.primer?.kind ?? null,
      addedLoadPa: input.addedLoadPa,
      finishedLevelM: input.finishedLevelM,
      air: airFacts(made, input.units, input.now),
      now: input.now,
      today: dayOfInstant(input.now, property.timeZone),
    },
    wording,
  );
  const findings = findingsOf(facts, wording);
  const context: OddContext = { now: input.now, yearBuilt: property.yearBuilt };
  return {
    facts,
    findings,
    needs: facts.needs,
    verdict: verdictOf(findings),
    holdsPour: holdsOn(findings, 'pour'),
    questions: [
      ...room.tests.flatMap((test) => questionsAboutTest(test, context, wording).map((says) => ({ about: `room.tests.${test.id}`, says }))),
      ...room.layers.flatMap((layer) => questionsAboutLayer(layer, context).map((says) => ({ about: `room.layers.${layer.id}`, says }))),
    ],
  };
}
