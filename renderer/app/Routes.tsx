import { type ComponentType, useEffect } from 'react';
import { Redirect, Route, Switch } from 'wouter';
import { BackupWatch } from '../backup/BackupWatch.tsx';
import { readAhead, useJobReading } from '../book/use-job-reading.ts';
import { NoJob } from '../parts/job/JobSheet.tsx';
import { openingStage, stageHref } from '../parts/job/stage-words.ts';
import { AgendaWatch } from '../reminders/AgendaWatch.tsx';
import { TodayScreen } from '../today/TodayScreen.tsx';
import { onDemand } from './on-demand.tsx';

const LOADING = <p className="app-opening caption">Loading…</p>;

const ON_DEMAND: { readonly preload: () => Promise<void> }[] = [];

function screen<P extends object>(load: () => Promise<ComponentType<P>>): ComponentType<P> {
  const component = onDemand(load, LOADING);
  ON_DEMAND.push(component);
  return component;
}

/** Loaded when first opened. Today comes with the page, because it is the first screen. */
const JobsScreen = screen(() => import('../jobs/JobsScreen.tsx').then((m) => m.JobsScreen));
const CustomersScreen = screen(() => import('../customers/CustomersScreen.tsx').then((m) => m.CustomersScreen));
const CustomerScreen = screen(() => import('../customers/CustomerScreen.tsx').then((m) => m.CustomerScreen));
const PropertyScreen = screen(() => import('../properties/PropertyScreen.tsx').then((m) => m.PropertyScreen));
const PlanScreen = screen(() => import('../plan/PlanScreen.tsx').then((m) => m.PlanScreen));
const ReadingsScreen = screen(() => import('../plan/ReadingsScreen.tsx').then((m) => m.ReadingsScreen));
const MaterialsScreen = screen(() => import('../materials/MaterialsScreen.tsx').then((m) => m.MaterialsScreen));
const BusinessScreen = screen(() => import('../business/BusinessScreen.tsx').then((m) => m.BusinessScreen));
const LicensesScreen = screen(() => import('../business/LicensesScreen.tsx').then((m) => m.LicensesScreen));
const BackupScreen = screen(() => import('../backup/BackupScreen.tsx').then((m) => m.BackupScreen));
const MoneyScreen = screen(() => import('../money/MoneyScreen.tsx').then((m) => m.MoneyScreen));
const JobMoneyScreen = screen(() => import('../money/JobMoneyScreen.tsx').then((m) => m.JobMoneyScreen));
const StockScreen = screen(() => import('../money/StockScreen.tsx').then((m) => m.StockScreen));
const AssessScreen = screen(() => import('../stages/assess/AssessScreen.tsx').then((m) => m.AssessScreen));
const PrepScreen = screen(() => import('../stages/prep/PrepScreen.tsx').then((m) => m.PrepScreen));
const EstimateScreen = screen(() => import('../stages/estimate/EstimateScreen.tsx').then((m) => m.EstimateScreen));
const QuoteScreen = screen(() => import('../stages/quote/QuoteScreen.tsx').then((m) => m.QuoteScreen));
const PourScreen = screen(() => import('../stages/pour/PourScreen.tsx').then((m) => m.PourScreen));
const PourModeScreen = screen(() => import('../stages/pour/PourModeScreen.tsx').then((m) => m.PourModeScreen));
const CureScreen = screen(() => import('../stages/cure/CureScreen.tsx').then((m) => m.CureScreen));
const HandoverScreen = screen(() => import('../stages/handover/HandoverScreen.tsx').then((m) => m.HandoverScreen));

/** Waits for the first screen's data, because loading code earlier would delay it. */
const LOAD_AFTER_MS = 3000;

/** Loads the code of the other screens and estimates the open jobs. */
async function loadScreens(): Promise<void> {
  // A job that cannot be read says so when it is opened.
  void readAhead().catch(() => undefined);
  for (const { preload } of ON_DEMAND) {
    await new Promise<void>((resolve) => requestIdleCallback(() => resolve()));
    await preload();
  }
}

const STAGES = {
  assess: AssessScreen,
  prep: PrepScreen,
  estimate: EstimateScreen,
  quote: QuoteScreen,
  pour: PourScreen,
  cure: CureScreen,
  handover: HandoverScreen,
} as const;
const isStage = (stage: string): stage is keyof typeof STAGES => stage in STAGES;

/** Addresses have the form `/jobs/JOB/STAGE/ROOM`. An unknown stage opens the stage the room is at. */
export function Routes() {
  useEffect(() => {
    const timer = setTimeout(() => void loadScreens(), LOAD_AFTER_MS);
    return () => clearTimeout(timer);
  }, []);
  return (
    <>
      <BackupWatch />
      <AgendaWatch />
      <Switch>
        <Route path="/" component={TodayScreen} />
        <Route path="/jobs" component={JobsScreen} />
        <Route path="/jobs/:job/money">{({ job }) => <JobMoneyScreen key={job} jobId={job} />}</Route>
        <Route path="/jobs/:job/:stage/:room">
          {({ job, stage, room }) => <StageOfJob key={`${job}/${room}`} jobId={job} stage={stage} roomId={room} />}
        </Route>
        <Route path="/pour/:pour">{({ pour }) => <PourModeScreen pourId={pour} />}</Route>
        <Route path="/customers" component={CustomersScreen} />
        <Route path="/customers/:customer">{({ customer }) => <CustomerScreen key={customer} customerId={customer} />}</Route>
        <Route path="/properties/:property">{({ property }) => <PropertyScreen key={property} propertyId={property} />}</Route>
        <Route path="/plan/:room/:part?">{({ room, part }) => <PlanScreen key={room} roomId={room} part={part} />}</Route>
        <Route path="/readings/:room">{({ room }) => <ReadingsScreen key={room} roomId={room} />}</Route>
        <Route path="/money" component={MoneyScreen} />
        <Route path="/stock" component={StockScreen} />
        <Route path="/materials">{() => <MaterialsScreen />}</Route>
        <Route path="/materials/:material">{({ material }) => <MaterialsScreen key={material} materialId={material} />}</Route>
        <Route path="/business/:part?">{({ part }) => <BusinessScreen part={part ?? null} />}</Route>
        <Route path="/licenses" component={LicensesScreen} />
        <Route path="/backup" component={BackupScreen} />
        <Route>
          <Redirect to="/" replace />
        </Route>
      </Switch>
    </>
  );
}

function StageOfJob({ jobId, stage, roomId }: { readonly jobId: string; readonly stage: string; readonly roomId: string }) {
  const reading = useJobReading(jobId);
  if (reading === undefined) return LOADING;
  const roomReading = reading?.rooms.find((r) => r.room.id === roomId);
  if (isStage(stage)) {
    const Screen = STAGES[stage];
    return reading === null || roomReading === undefined ? <NoJob /> : <Screen reading={reading} roomReading={roomReading} />;
  }
  const rooms = reading?.standing.rooms ?? [];
  const found = rooms.find((room) => room.roomId === roomId) ?? rooms[0];
  return found === undefined ? <NoJob /> : <Redirect to={stageHref(jobId, openingStage(found.stage), found.roomId)} replace />;
}
