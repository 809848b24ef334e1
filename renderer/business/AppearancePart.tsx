import { storeSetting, useSetting } from '../book/settings.ts';
import type { Look } from '../look/use-look.ts';
import { ChoiceRow } from '../parts/Choices.tsx';
import { BlockPart } from '../parts/Sheet.tsx';

const LOOKS: Readonly<Record<Look, string>> = { light: 'Light', dark: 'Dark', system: 'Match system' };

export function AppearancePart() {
  const setting = useSetting('look');
  const look = setting === 'light' || setting === 'dark' ? setting : 'system';
  return (
    <BlockPart heading="Appearance on this computer">
      <ChoiceRow label="Appearance" value={look} options={LOOKS} onChange={(chosen) => void storeSetting('look', chosen)} />
    </BlockPart>
  );
}
