import { lazy, Suspense, useEffect } from 'react';
import { Redirect, Route, Switch } from 'wouter';
import { BackupWatch } from '../backup/BackupWatch.tsx';
import { CurrentStage } from '../jobs/CurrentStage.tsx';
import { AgendaWatch } from '../reminders/AgendaWatch.tsx';
import { TodayScreen } from '../today/TodayScreen.tsx';

/** Loaded when first opened. Today comes with the page, because it is the first screen. */
const LOADERS = {
  JobsScreen: () => import('../jobs/JobsScreen.tsx'),
  CustomersScreen: () => import('../customers/CustomersScreen.tsx'),
  CustomerScreen: () => import('../customers/CustomerScreen.tsx'),
  PropertyScreen: () => import('../properties/PropertyScreen.tsx'),
  PlanScreen: () => import('../plan/PlanScreen.tsx'),
  ReadingsScreen: () => import('../plan/ReadingsScreen.tsx'),
  MaterialsScreen: () => import('../materials/MaterialsScreen.tsx'),
  BusinessScreen: () => import('../business/BusinessScreen.tsx'),
  LicensesScreen: () => import('../business/LicensesScreen.tsx'),
  BackupScreen: () => import('../backup/BackupScreen.tsx'),
  MoneyScreen: () => import('../money/MoneyScreen.tsx'),
  JobMoneyScreen: () => import('../money/JobMoneyScreen.tsx'),
  StockScreen: () => import('../money/StockScreen.tsx'),
  AssessScreen: () => import('../stages/assess/AssessScreen.tsx'),
  PrepScreen: () => import('../stages/prep/PrepScreen.tsx'),
  EstimateScreen: () => import('../stages/estimate/EstimateScreen.tsx'),
  QuoteScreen: () => import('../stages/quote/QuoteScreen.tsx'),
  PourScreen: () => import('../stages/pour/PourScreen.tsx'),
  PourModeScreen: () => import('../stages/pour/PourModeScreen.tsx'),
  CureScreen: () => import('../stages/cure/CureScreen.tsx'),
  HandoverScreen: () => import('../stages/handover/HandoverScreen.tsx'),
} as const;

const JobsScreen = lazy(() => LOADERS.JobsScreen().then((m) => ({ default: m.JobsScreen })));
const CustomersScreen = lazy(() => LOADERS.CustomersScreen().then((m) => ({ default: m.CustomersScreen })));
const CustomerScreen = lazy(() => LOADERS.CustomerScreen().then((m) => ({ default: m.CustomerScreen })));
const PropertyScreen = lazy(() => LOADERS.PropertyScreen().then((m) => ({ default: m.PropertyScreen })));
const PlanScreen = lazy(() => LOADERS.PlanScreen().then((m) => ({ default: m.PlanScreen })));
const ReadingsScreen = lazy(() => LOADERS.ReadingsScreen().then((m) => ({ default: m.ReadingsScreen })));
const MaterialsScreen = lazy(() => LOADERS.MaterialsScreen().then((m) => ({ default: m.MaterialsScreen })));
const BusinessScreen = lazy(() => LOADERS.BusinessScreen().then((m) => ({ default: m.BusinessScreen })));
const LicensesScreen = lazy(() => LOADERS.LicensesScreen().then((m) => ({ default: m.LicensesScreen })));
const BackupScreen = lazy(() => LOADERS.BackupScreen().then((m) => ({ default: m.BackupScreen })));
const MoneyScreen = lazy(() => LOADERS.MoneyScreen().then((m) => ({ default: m.MoneyScreen })));
const JobMoneyScreen = lazy(() => LOADERS.JobMoneyScreen().then((m) => ({ default: m.JobMoneyScreen })));
const StockScreen = lazy(() => LOADERS.StockScreen().then((m) => ({ default: m.StockScreen })));
const AssessScreen = lazy(() => LOADERS.AssessScreen().then((m) => ({ default: m.AssessScreen })));
const PrepScreen = lazy(() => LOADERS.PrepScreen().then((m) => ({ default: m.PrepScreen })));
const EstimateScreen = lazy(() => LOADERS.EstimateScreen().then((m) => ({ default: m.EstimateScreen })));
const QuoteScreen = lazy(() => LOADERS.QuoteScreen().then((m) => ({ default: m.QuoteScreen })));
const PourScreen = lazy(() => LOADERS.PourScreen().then((m) => ({ default: m.PourScreen })));
const PourModeScreen = lazy(() => LOADERS.PourModeScreen().then((m) => ({ default: m.PourModeScreen })));
const CureScreen = lazy(() => LOADERS.CureScreen().then((m) => ({ default: m.CureScreen })));
const HandoverScreen = lazy(() => LOADERS.HandoverScreen().then((m) => ({ default: m.HandoverScreen })));

/** Waits for the first screen's data, because loading code earlier would delay it. */
const LOAD_AFTER_MS = 3000;

async function loadScreens(): Promise<void> {
  for (const load of Object.values(LOADERS)) {
    await new Promise<void>((resolve) => requestIdleCallback(() => resolve()));
    // A screen that fails to load is requested again when it is opened.
    await load().catch(() => undefined);
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
    <Suspense fallback={<p className="app-opening caption">Loading…</p>}>
      <BackupWatch />
      <AgendaWatch />
      <Switch>
        <Route path="/" component={TodayScreen} />
        <Route path="/jobs" component={JobsScreen} />
        <Route path="/jobs/:job/money">{({ job }) => <JobMoneyScreen key={job} jobId={job} />}</Route>
        <Route path="/jobs/:job/:stage/:room">
          {({ job, stage, room }) => {
            if (!isStage(stage)) return <CurrentStage key={`${job}/${room}`} jobId={job} roomId={room} />;
            const Screen = STAGES[stage];
            return <Screen key={`${job}/${room}`} jobId={job} roomId={room} />;
          }}
        </Route>
        <Route path="/pour/:pour">{({ pour }) => <PourModeScreen pourId={pour} />}</Route>
        <Route path="/customers" component={CustomersScreen} />
        <Route path="/customers/:customer">{({ customer }) => <CustomerScreen key={customer} customerId={customer} />}</Route>
        <Route path="/properties/:property">{({ property }) => <PropertyScreen key={property} propertyId={property} />}</Route>
        <Route path="/plan/:room">{({ room }) => <PlanScreen key={room} roomId={room} />}</Route>
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
    </Suspense>
  );
}
