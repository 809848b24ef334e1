import { lazy, Suspense } from 'react';
import { Redirect, Route, Switch } from 'wouter';
import { BackupWatch } from '../backup/BackupWatch.tsx';
import { CurrentStage } from '../jobs/CurrentStage.tsx';
import { AgendaWatch } from '../reminders/AgendaWatch.tsx';
import { TodayScreen } from '../today/TodayScreen.tsx';

const JobsScreen = lazy(() => import('../jobs/JobsScreen.tsx').then((m) => ({ default: m.JobsScreen })));
const CustomersScreen = lazy(() => import('../customers/CustomersScreen.tsx').then((m) => ({ default: m.CustomersScreen })));
const CustomerScreen = lazy(() => import('../customers/CustomerScreen.tsx').then((m) => ({ default: m.CustomerScreen })));
const PropertyScreen = lazy(() => import('../properties/PropertyScreen.tsx').then((m) => ({ default: m.PropertyScreen })));
const PlanScreen = lazy(() => import('../plan/PlanScreen.tsx').then((m) => ({ default: m.PlanScreen })));
const ReadingsScreen = lazy(() => import('../plan/ReadingsScreen.tsx').then((m) => ({ default: m.ReadingsScreen })));
const MaterialsScreen = lazy(() => import('../materials/MaterialsScreen.tsx').then((m) => ({ default: m.MaterialsScreen })));
const BusinessScreen = lazy(() => import('../business/BusinessScreen.tsx').then((m) => ({ default: m.BusinessScreen })));
const LicensesScreen = lazy(() => import('../business/LicensesScreen.tsx').then((m) => ({ default: m.LicensesScreen })));
const BackupScreen = lazy(() => import('../backup/BackupScreen.tsx').then((m) => ({ default: m.BackupScreen })));
const MoneyScreen = lazy(() => import('../money/MoneyScreen.tsx').then((m) => ({ default: m.MoneyScreen })));
const JobMoneyScreen = lazy(() => import('../money/JobMoneyScreen.tsx').then((m) => ({ default: m.JobMoneyScreen })));
const AssessScreen = lazy(() => import('../stages/assess/AssessScreen.tsx').then((m) => ({ default: m.AssessScreen })));
const PrepScreen = lazy(() => import('../stages/prep/PrepScreen.tsx').then((m) => ({ default: m.PrepScreen })));
const EstimateScreen = lazy(() => import('../stages/estimate/EstimateScreen.tsx').then((m) => ({ default: m.EstimateScreen })));
const QuoteScreen = lazy(() => import('../stages/quote/QuoteScreen.tsx').then((m) => ({ default: m.QuoteScreen })));
const PourScreen = lazy(() => import('../stages/pour/PourScreen.tsx').then((m) => ({ default: m.PourScreen })));
const PourModeScreen = lazy(() => import('../stages/pour/PourModeScreen.tsx').then((m) => ({ default: m.PourModeScreen })));
const CureScreen = lazy(() => import('../stages/cure/CureScreen.tsx').then((m) => ({ default: m.CureScreen })));
const HandoverScreen = lazy(() => import('../stages/handover/HandoverScreen.tsx').then((m) => ({ default: m.HandoverScreen })));

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

/** Which sheet stands at which address: `/jobs/JOB/STAGE/ROOM`; any other word in place of the stage opens the stage the room is at. */
export function Routes() {
  return (
    <Suspense fallback={<p className="app-opening caption">Drawing…</p>}>
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
