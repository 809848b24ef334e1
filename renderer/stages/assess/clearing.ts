/** The target and button of each finding's link. */
import type { FloorTestKind } from '../../../shared-core/book/layer.ts';
import type { Finding } from '../../../shared-core/substrate/rule.ts';
import { type PlanTool, planTool } from '../../parts/plan-tools.ts';
import { testKinds } from '../../../shared-core/substrate/test-kinds.ts';

export type Lift =
  | { readonly to: 'lab'; readonly question: 'asbestos' | 'lead-paint'; readonly layerId: string | null; readonly word: string }
  | {
      readonly to: 'test';
      readonly kind: Exclude<FloorTestKind, 'lab'>;
      readonly begins: Readonly<Record<string, string>>;
      readonly word: string;
    }
  | { readonly to: 'plan'; readonly tool: PlanTool; readonly word: string }
  | { readonly to: 'estimate'; readonly word: string }
  | { readonly to: 'field'; readonly elementId: string; readonly word: string };

const isTestKind = (name: string | undefined): name is FloorTestKind => testKinds().some((kind) => kind === name);

const ESTIMATE_WORDS: Readonly<Record<string, string>> = {
  materialId: 'Choose product',
  primerId: 'Choose primer',
  moistureSystemId: 'Choose system',
  level: 'Set finish elevation',
};

/** Parses a finding's path. An unknown one leads to the layers. */
export function liftOf({ lifts, ruleId }: Pick<Finding, 'lifts' | 'ruleId'>): Lift {
  const [holder, part, name, of] = lifts.split('.');
  if (holder === 'room' && part === 'tests') {
    if (name === 'lab')
      return {
        to: 'lab',
        question: ruleId.startsWith('lead') ? 'lead-paint' : 'asbestos',
        layerId: of ?? null,
        word: 'Enter result',
      };
    // A wood test names its part.
    if (isTestKind(name) && name !== 'lab')
      return { to: 'test', kind: name, begins: of === undefined ? {} : { part: of }, word: 'Enter reading' };
  }
  if (holder === 'room' && (part === 'plan' || part === 'marks'))
    return { to: 'plan', tool: planTool(part === 'plan' ? name : part), word: 'Go to plan' };
  if (holder === 'jobRoom' && part === 'flooring') return { to: 'field', elementId: 'lift-flooring', word: 'Choose flooring' };
  if (holder === 'jobRoom') return { to: 'estimate', word: ESTIMATE_WORDS[part ?? ''] ?? 'Go to Estimate' };
  if (part === 'circumstances') return { to: 'field', elementId: `lift-circumstance-${name ?? ''}`, word: 'Enter answer' };
  if (part === 'layers' && name !== undefined) return { to: 'field', elementId: `lift-layer-${name}`, word: 'Edit layer' };
  return { to: 'field', elementId: 'lift-layers', word: 'Edit layers' };
}

/** Scrolls to a field, opens its folded part, and focuses it. */
export function focusField(elementId: string): void {
  const target = document.getElementById(elementId);
  const fold = target?.closest('details');
  if (fold) fold.open = true;
  target?.scrollIntoView({ block: 'center' });
  target?.querySelector<HTMLElement>('input, select, button')?.focus({ preventScroll: true });
}
