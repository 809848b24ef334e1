/** A room's assessment from its records: the facts, the findings, the tests still needed, and the verdict. */
import type { UnitSystem } from '../book/business.ts';
import type { JobRoom, Override } from '../book/job.ts';
import type { Material } from '../book/material.ts';
import type { Property } from '../book/property.ts';
import type { Room } from '../book/room.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { roomAreaM2, roomPerimeterM } from '../plan/region.ts';
import { type AirFacts, type FloorFacts, floorFacts, type ProductFacts } from '../substrate/floor-facts.ts';
import { type OddContext, questionsAboutLayer, questionsAboutTest } from '../substrate/odd-readings.ts';
import type { Finding, Verdict } from '../substrate/rule.ts';
import { findingsOf, holdsOn, verdictOf } from '../substrate/rules.ts';
import { isStale } from '../substrate/test-kinds.ts';
import type { TestNeed } from '../substrate/test-needs.ts';
import { type TestOf, testsOf } from '../book/tests-of.ts';
import { planeOfRamp } from '../survey/ramp.ts';
import { levelOnScale } from '../survey/scale.ts';
import { wordingFor } from '../substrate/wording.ts';
import { DEW_MARGIN, dewMargin } from '../climate/dew-margin.ts';
import { evaporation } from '../climate/evaporation.ts';
import { overridesInForce, withDocuments } from './overrides.ts';

/** The records an assessment reads, with figures other parts compute. */
export type AssessInput = {
  readonly room: Room;
  /** The rooms that share its slab tests, itself too; left out for a room alone. */
  readonly onSlab?: readonly Room[];
  /** Null for a room without a job. */
  readonly jobRoom: JobRoom | null;
  readonly property: Pick<Property, 'yearBuilt' | 'timeZone'>;
  readonly units: UnitSystem;
  readonly locale: string;
  /** The underlayment chosen; null while none is. */
  readonly material: Material | null;
  /** Whether a moisture mitigation system is chosen. */
  readonly hasMoistureSystem: boolean;
  /** Load the pour adds at its deepest point, pascals; null while there is no estimate. */
  readonly addedLoadPa: number | null;
  /** Least and greatest pour depth, meters; null while there is no estimate. */
  readonly depth: FloorFacts['depth'];
  /** How deep the high spots are ground or sanded at most, meters; null where none are. */
  readonly cutMostM: number | null;
  /** Lifts the pour takes; null while there is no estimate. */
  readonly lifts: number | null;
  /** Whether a pour already covers at least a part of the floor. */
  readonly isPouredOver: boolean;
  /** When the last pour in the room finished; null before the first lift. */
  readonly lastPouredAt: string | null;
  /** Step up from the floor or sill beyond each opening to the new flooring, by the opening's id, meters; without those not known. */
  readonly doorSteps: Readonly<Record<string, number>>;
  /** Now: a test dated later does not count. */
  readonly now: string;
  /** The instant the floor is judged at; `now` where it is left out. A placed floor is judged as its pour started. */
  readonly asOf?: string;
  /** The instant tests are old or fresh at; `asOf` where it is left out. A contract keeps the instant of its quote. */
  readonly agedAt?: string;
};

/** A question about an unlikely entry, with its field. */
export type Question = { readonly about: string; readonly text: string };

/** A room's assessment. */
export type Assessment = {
  readonly facts: FloorFacts;
  readonly findings: readonly Finding[];
  readonly needs: readonly TestNeed[];
  readonly verdict: Verdict;
  readonly holdsPour: readonly Finding[];
  readonly questions: readonly Question[];
  /** Overrides by reason that are in force now. */
  readonly overrides: readonly Override[];
};

/** Ambient conditions with dew point, margin and evaporation; null without a recent reading. */
export function airFacts(tests: Room['tests'], units: UnitSystem, now: string): AirFacts | null {
  const test: TestOf<'air'> | undefined = testsOf(tests, 'air')
    .filter((candidate) => Date.parse(candidate.takenAt) <= Date.parse(now))
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
    evaporationKgM2H: airSpeedMPerS === null ? null : (rate?.kgM2H ?? null),
    // Whether water condenses depends only on the temperatures, not on air speed.
    condenses: rate?.condenses ?? false,
  };
}

function productOf(material: Material | null): ProductFacts | null {
  return material === null || material.powder === null ? null : { kind: material.kind, powder: material.powder };
}

/** Walls less openings: the length a baseboard can have, meters; null while the room is not drawn. */
function baseboardLengthM(plan: Room['plan']): number | null {
  if (plan.outline.length < 3) return null;
  return Math.max(0, roomPerimeterM(plan).wallsM - plan.openings.reduce((sum, opening) => sum + opening.widthM, 0));
}

/** The finish of a room in its job, with the plane of a ramp. */
function finishToDrain(room: Room, { level, flooringThicknessM = null }: JobRoom): FloorFacts['level'] {
  return { mode: level.mode, ramp: planeOfRamp(levelOnScale(level, room.survey).level, room.plan, flooringThicknessM) };
}

/** Assesses a room. Tests dated after `asOf` do not count; those dated after `now` raise a question. */
export function assessRoom(input: AssessInput): Assessment {
  const { room, jobRoom, property } = input;
  const asOf = input.asOf ?? input.now;
  const wording = wordingFor(input.units, input.locale);
  const overrides = jobRoom?.overrides ?? [];
  const testsBy = (of: Room): Room['tests'] => of.tests.filter((test) => Date.parse(test.takenAt) <= Date.parse(asOf));
  const tests = testsBy(room);
  const areaOf = ({ plan }: Room): number | null => (plan.outline.length < 3 ? null : roomAreaM2(plan));
  const onSlab = input.onSlab ?? [room];
  const facts = floorFacts(
    {
      layers: room.layers,
      tests,
      marks: room.marks.toSorted((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0)),
      openings: room.plan.openings.toSorted((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0)),
      circumstances: room.circumstances,
      plan: room.plan,
      areaM2: areaOf(room),
      slab: {
        rooms: onSlab.map((one) => ({ layers: one.layers, tests: testsBy(one), areaM2: areaOf(one) })),
        place: onSlab.findIndex(({ id }) => id === room.id),
      },
      yearBuilt: property.yearBuilt,
      flooring: jobRoom?.flooring ?? null,
      flooringLimits: jobRoom?.flooringLimits ?? null,
      level: jobRoom === null ? { mode: 'level', ramp: null } : finishToDrain(room, jobRoom),
      product: productOf(input.material),
      hasMoistureSystem: input.hasMoistureSystem,
      depth: input.depth,
      cutMostM: input.cutMostM,
      lifts: input.lifts,
      isPouredOver: input.isPouredOver,
      baseboardM: baseboardLengthM(room.plan),
      hasStair: room.plan.holes.some((hole) => hole.kind === 'stair'),
      addedLoadPa: input.addedLoadPa,
      doorSteps: input.doorSteps,
      air: airFacts(tests, input.units, asOf),
      overrides,
      now: input.agedAt ?? asOf,
      today: dayOfInstant(asOf, property.timeZone),
    },
    wording,
  );
  const findings = findingsOf(facts, wording, (unresolved) =>
    withDocuments(unresolved, overrides, facts, { wording, locale: input.locale }),
  );
  const context: OddContext = { now: input.now, yearBuilt: property.yearBuilt };
  return {
    facts,
    findings,
    needs: facts.needs,
    verdict: verdictOf(findings),
    holdsPour: holdsOn(findings, 'pour'),
    overrides: overridesInForce(overrides, { lastPouredAt: input.lastPouredAt, now: asOf }),
    questions: [
      ...room.tests.flatMap((test) => questionsAboutTest(test, context, wording).map((text) => ({ about: `room.tests.${test.id}`, text }))),
      ...room.layers.flatMap((layer) => questionsAboutLayer(layer, context).map((text) => ({ about: `room.layers.${layer.id}`, text }))),
    ],
  };
}
