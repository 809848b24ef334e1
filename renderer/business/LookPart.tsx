import { keepSetting, useSetting } from '../book/settings.ts';
import type { Look } from '../look/use-look.ts';
import { ChoiceRow } from '../parts/ChoiceRow.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';

const LOOKS: readonly { value: Look; word: string }[] = [
  { value: 'light', word: 'Paper' },
  { value: 'dark', word: 'Dark' },
  { value: 'system', word: 'As the computer' },
];

/** Light or dark: of this machine, not of the book. */
export function LookPart() {
  const kept = useSetting('look');
  const look = LOOKS.find((l) => l.value === kept)?.value ?? 'system';
  return (
    <BlockPart heading="The look, on this machine">
      <ChoiceRow label="Look" value={look} options={LOOKS} onChange={(chosen) => void keepSetting('look', chosen)} />
    </BlockPart>
  );
}
