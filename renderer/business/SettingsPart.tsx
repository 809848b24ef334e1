import { createContext, type ReactNode, useContext, useEffect, useId, useRef } from 'react';
import { TextButton } from '../parts/Buttons.tsx';
import type { Update } from '../book/write.ts';
import type { Business } from '../../shared-core/book/business.ts';
import { typicalCosts } from '../../shared-core/price/typical-prices.ts';
import { formatClockTime } from '../../shared-core/measure/clock-time.ts';
import { formatPercent } from '../../shared-core/measure/percent.ts';
import { formatListAnd } from '../../shared-core/measure/list.ts';
import { weekdayName } from '../../shared-core/measure/weekday.ts';
import { countWords } from '../../shared-core/measure/count-words.ts';
import { formatMoney } from '../../shared-core/price/money.ts';
import { formatTaxRate } from '../../shared-core/price/tax.ts';
import { capital } from '../../shared-core/measure/first-letter.ts';

/** Which folded parts are open, and which to scroll to. */
interface OpenParts {
  readonly open: ReadonlySet<string>;
  readonly target: string | null;
  readonly toggle: (key: string) => void;
}
export const OpenPartsContext = createContext<OpenParts>({ open: new Set(), target: null, toggle: () => undefined });

interface SettingsPartProps {
  readonly heading: string;
  /** The purpose of the part, in one sentence. */
  readonly text?: ReactNode;
  /** Makes the part foldable: its name in the address, and its one-line summary. */
  readonly fold?: { readonly key: string; readonly summary: string };
  readonly children: ReactNode;
}

/** A part of the settings: its name at the left, and its fields or its summary at the right. */
export function SettingsPart({ heading, text, fold, children }: SettingsPartProps) {
  const id = useId();
  const section = useRef<HTMLElement>(null);
  const { open, target, toggle } = useContext(OpenPartsContext);
  const isTarget = fold !== undefined && fold.key === target;
  useEffect(() => {
    if (isTarget) section.current?.scrollIntoView({ block: 'start' });
  }, [isTarget]);
  const isOpen = fold === undefined || open.has(fold.key);
  return (
    <section className="settings-part" aria-labelledby={id} ref={section}>
      <div>
        <h2 className="settings-part-name" id={id}>
          {heading}
        </h2>
        {isOpen && text !== undefined && <p className="caption">{text}</p>}
      </div>
      <div className="stack-wide">
        {fold !== undefined && (
          <div className="ends-row">
            <p>{fold.summary}</p>
            <TextButton
              kind="plain"
              expanded={isOpen}
              label={isOpen ? `Close ${heading}` : `Edit ${heading}`}
              onPress={() => toggle(fold.key)}
            >
              {isOpen ? 'Close' : 'Edit'}
            </TextButton>
          </div>
        )}
        {isOpen && children}
      </div>
    </section>
  );
}

export interface BusinessPart {
  readonly business: Business;
  /** Saves one change as one step of undo; `label` names it. */
  readonly edit: (label: string, change: Update<Business>) => void;
}

export function unitsSummary({ units, paper, timeZone, currency }: Business): string {
  const system = units === 'us' ? 'Feet and pounds' : 'Meters and kilograms';
  return `${system}, ${paper === 'letter' ? 'US Letter' : 'A4'}, ${timeZone.replaceAll('_', ' ')}, ${currency}`;
}

export function taxSummary({ taxRates, pricing, locale }: Business): string {
  const tax = (id: string | null, taxed: string): string => {
    const rate = taxRates.find((one) => one.id === id);
    return rate === undefined || rate.rate === 0 ? `no tax on ${taxed}` : `${rate.name} ${formatTaxRate(rate.rate, locale)} on ${taxed}`;
  };
  const words = `${tax(pricing.materialTaxId, 'materials')}, ${tax(pricing.laborTaxId, 'labor')}`;
  return capital(words);
}

export function pricingSummary({ pricing, currency, locale }: Business): string {
  const percent = (share: number): string => formatPercent(share, 1, locale);
  const method = pricing.method === 'markup' ? 'markup' : 'margin';
  return `${percent(pricing.share)} ${method}, ${percent(pricing.contingencyShare)} contingency, minimum charge ${formatMoney(pricing.minimumChargeMinor, currency, locale)}`;
}

export function costsSummary(business: Business): string {
  const all = Object.keys(business.costs).length;
  const own = all - typicalCosts(business).length;
  if (own === 0) return `${all} typical costs. Enter your own labor rates before you quote.`;
  return `${own} of ${all} costs are your own. The others are typical.`;
}

export function hoursSummary({ hours, locale }: Business): string {
  const days = hours.days.map((day) => weekdayName(day, locale));
  const [first, last] = [days[0], days.at(-1)];
  const isRun = hours.days.length > 2 && hours.days.every((day, i) => i === 0 || day === (hours.days[i - 1] ?? 0) + 1);
  const span = days.length === 0 ? 'no workdays' : isRun ? `${first} to ${last}` : formatListAnd(days);
  return `${formatClockTime(hours.from, locale)} to ${formatClockTime(hours.to, locale)}, ${span}`;
}

export function quoteSummary({ quoteValidDays, pricing, quoteTerms, locale }: Business): string {
  const terms = quoteTerms.trim() === '' ? 'no terms' : 'your own terms';
  return `Valid ${countWords(quoteValidDays, 'day', locale)}, ${formatPercent(pricing.depositShare, 1, locale)} deposit, ${terms}`;
}

export function calculationSummary({ bagPercentile, usualLossShare, coldJointChance, locale }: Business): string {
  const percent = (share: number): string => formatPercent(share, 1, locale);
  return `Enough bags in ${percent(bagPercentile)} of pours, ${percent(usualLossShare)} waste, ${percent(coldJointChance)} cold joint risk`;
}

export function moneySummary({ expenseCategories, lienRules, locale }: Business): string {
  const states = lienRules.map(({ state }) => state).filter((state) => state !== '');
  return `${countWords(expenseCategories.length, 'expense category', locale)}, ${states.length === 0 ? 'no lien deadlines' : `lien deadlines for ${formatListAnd(states)}`}`;
}

export function contractSummary({ contract }: Business): string {
  const entered = [
    contract.license === '' ? '' : 'license',
    contract.insurance === '' ? '' : 'insurance',
    contract.paymentMethods === '' ? '' : 'payment methods',
    contract.warrantyMonths === null ? '' : 'warranty',
  ].filter((word) => word !== '');
  if (entered.length === 0) return 'No license, insurance, payment methods, or warranty yet';
  return `${capital(formatListAnd(entered))} entered`;
}

export function clausesSummary({ contract }: Business): string {
  const own = contract.clauses.length;
  return own === 0 ? 'Starter text for every topic' : `${countWords(own, 'topic', 'en-US')} in your own words`;
}
