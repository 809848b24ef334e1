/** Where the field is that lifts a finding, and what pressing its word does. */
import type { FloorTestKind } from '../../../shared-core/book/layer.ts';
import type { Finding } from '../../../shared-core/substrate/rule.ts';
import { TEST_KINDS } from './test-forms.ts';

/** What a finding asks for. */
export type Lift =
  | { readonly to: 'laboratory'; readonly question: 'asbestos' | 'lead-paint'; readonly layerId: string | null; readonly word: string }
  | { readonly to: 'test'; readonly kind: Exclude<FloorTestKind, 'laboratory'>; readonly word: string }
  | { readonly to: 'plan'; readonly word: string }
  | { readonly to: 'estimate'; readonly word: string }
  | { readonly to: 'field'; readonly elementId: string; readonly word: string };

const isTestKind = (name: string | undefined): name is FloorTestKind => TEST_KINDS.some((kind) => kind === name);

const ESTIMATE_WORDS: Readonly<Record<string, string>> = {
  materialId: 'Choose the material',
  primerId: 'Choose the primer',
  level: 'Set the level',
};

/** Reads a finding's path. One that leads nowhere known leads to the layers. */
export function liftOf({ lifts, ruleId }: Pick<Finding, 'lifts' | 'ruleId'>): Lift {
  const [holder, what, name] = lifts.split('.');
  if (holder === 'room' && what === 'tests') {
    if (name === 'laboratory')
      return {
        to: 'laboratory',
        question: ruleId.startsWith('lead') ? 'lead-paint' : 'asbestos',
        layerId: lifts.split('.')[3] ?? null,
        word: 'Enter the result',
      };
    if (isTestKind(name) && name !== 'laboratory') return { to: 'test', kind: name, word: 'Enter the reading' };
  }
  if (holder === 'room' && (what === 'plan' || what === 'marks')) return { to: 'plan', word: 'To the plan' };
  if (holder === 'jobRoom' && what === 'flooring') return { to: 'field', elementId: 'lift-flooring', word: 'Choose the covering' };
  if (holder === 'jobRoom') return { to: 'estimate', word: ESTIMATE_WORDS[what ?? ''] ?? 'To the estimate' };
  if (what === 'circumstances') return { to: 'field', elementId: `lift-circumstance-${name ?? ''}`, word: 'Answer it' };
  if (what === 'layers' && name !== undefined) return { to: 'field', elementId: `lift-layer-${name}`, word: 'To the layer' };
  return { to: 'field', elementId: 'lift-layers', word: 'To the layers' };
}

/** Brings a field into view and puts the hand on it. */
export function focusField(elementId: string): void {
  const target = document.getElementById(elementId);
  target?.scrollIntoView({ block: 'center' });
  target?.querySelector<HTMLElement>('input, select, button')?.focus({ preventScroll: true });
}
