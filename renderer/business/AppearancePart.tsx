import { storeSetting, useSetting } from '../book/settings.ts';
import type { Look } from '../look/use-look.ts';
import { ChoiceRow } from '../parts/Choices.tsx';
import { BlockPart } from '../parts/Sheet.tsx';

const LOOKS: readonly { value: Look; word: string }[] = [
  { value: 'light', word: 'Light' },
  { value: 'dark', word: 'Dark' },
  { value: 'system', word: 'Match system' },
];

export function AppearancePart() {
  const setting = useSetting('look');
  const look = LOOKS.find((l) => l.value === setting)?.value ?? 'system';
  return (
    <BlockPart heading="Appearance on this computer">
      <ChoiceRow label="Appearance" value={look} options={LOOKS} onChange={(chosen) => void storeSetting('look', chosen)} />
    </BlockPart>
  );
}
