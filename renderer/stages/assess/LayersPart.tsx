import { updated, type Update } from '../../book/write.ts';
import { useState } from 'react';
import type { Layer, LayerMaterial } from '../../../shared-core/book/layer.ts';
import type { Plan } from '../../../shared-core/book/plan-fields.ts';
import { formatArea } from '../../../shared-core/measure/area.ts';
import { formatLength } from '../../../shared-core/measure/length-format.ts';
import { stretchOf } from '../../../shared-core/plan/part-of-room.ts';
import { areaInRoomM2 } from '../../../shared-core/plan/overlap.ts';
import { LAYER_WORDS } from '../../../shared-core/substrate/layer-words.ts';
import { newId } from '../../book/command.ts';
import { YearField, QuantityField } from '../../parts/Fields.tsx';
import { SelectField } from '../../parts/Choices.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { PartDialog, SIDE_WORDS } from './PartDialog.tsx';

interface LayersPartProps {
  readonly plan: Pick<Plan, 'outline' | 'holes' | 'openings'>;
  readonly layers: readonly Layer[];
  readonly heldIds: ReadonlySet<string>;
  readonly onChange: (label: string, update: (layers: readonly Layer[]) => readonly Layer[]) => void;
}

const SOUND = { sound: 'sound', loose: 'loose', weak: 'weak', unknown: 'unknown' };
const FATES = { keep: 'keep', remove: 'remove' };

const newLayer = (material: LayerMaterial): Layer => ({
  id: newId(),
  material,
  thicknessM: null,
  yearInstalled: null,
  sound: 'unknown',
  fate: 'keep',
  area: null,
  note: '',
});

/** The floor assembly from the top down, one layer per line. */
export function LayersPart({ plan, layers, heldIds, onChange }: LayersPartProps) {
  const { units, locale } = useMeasure();
  const [placing, setPlacing] = useState<Layer | null>(null);
  const whereWords = (layer: Layer): string => {
    if (layer.area === null) return 'whole room';
    const stretch = stretchOf(plan, layer.area);
    return stretch === null
      ? formatArea(areaInRoomM2(plan, layer.area), units, locale)
      : `${SIDE_WORDS[stretch.side]} ${formatLength(stretch.depthM, units, locale)}`;
  };
  const set = (id: string, update: Update<Layer>): void =>
    onChange('layer', (all) => all.map((l) => (l.id === id ? updated(l, update) : l)));
  const moveUp = (id: string): void =>
    onChange('order of layers', (all) => {
      const i = all.findIndex((l) => l.id === id);
      const [above, layer] = [all[i - 1], all[i]];
      return above === undefined || layer === undefined ? all : all.with(i - 1, layer).with(i, above);
    });
  return (
    <section className="assess-part layers-part" aria-label="Floor assembly, from the top down" id="lift-layers">
      <ol>
        {layers.map((layer, i) => (
          <li key={layer.id} id={`lift-layer-${layer.id}`} className={heldIds.has(layer.id) ? 'layer-held' : undefined}>
            <SelectField
              label={i === 0 ? 'Layer, top first' : `Layer ${i + 1}`}
              bare={i > 0}
              value={layer.material}
              options={LAYER_WORDS}
              onChange={(material) => set(layer.id, { material: material })}
            />
            <QuantityField
              kind="depth"
              label="Thickness"
              bare={i > 0}
              value={layer.thicknessM}
              placeholder="unknown"
              onChange={(thicknessM) => set(layer.id, { thicknessM })}
            />
            <YearField
              label="Installed"
              bare={i > 0}
              value={layer.yearInstalled}
              placeholder="unknown"
              onChange={(yearInstalled) => set(layer.id, { yearInstalled })}
            />
            <SelectField
              label="Condition"
              bare={i > 0}
              value={layer.sound}
              options={SOUND}
              onChange={(sound) => set(layer.id, { sound: sound })}
            />
            <SelectField
              label="Keep or remove"
              bare={i > 0}
              value={layer.fate}
              options={FATES}
              onChange={(fate) => set(layer.id, { fate: fate })}
            />
            <span className="words layer-actions">
              <TextButton
                kind="plain"
                label={`Extent of ${LAYER_WORDS[layer.material]}: ${whereWords(layer)}`}
                onPress={() => setPlacing(layer)}
              >
                {whereWords(layer)}
              </TextButton>
              <TextButton kind="plain" label={`Move ${LAYER_WORDS[layer.material]} up`} disabled={i === 0} onPress={() => moveUp(layer.id)}>
                Move up
              </TextButton>
              <TextButton
                kind="plain"
                label={`Delete ${LAYER_WORDS[layer.material]}`}
                onPress={() => onChange(`deleted ${LAYER_WORDS[layer.material]}`, (all) => all.filter((l) => l.id !== layer.id))}
              >
                Delete
              </TextButton>
            </span>
          </li>
        ))}
      </ol>
      <div className="layer-add">
        <SelectField
          label={layers.length === 0 ? 'Top layer' : 'Add layer below'}
          calls
          value={null as LayerMaterial | null}
          none="choose"
          options={LAYER_WORDS}
          onChange={(material) => {
            if (material !== null) onChange(`added ${LAYER_WORDS[material]}`, (all) => [...all, newLayer(material)]);
          }}
        />
      </div>
      {placing !== null && (
        <PartDialog
          plan={plan}
          of={LAYER_WORDS[placing.material]}
          area={placing.area}
          onSave={(area) => {
            set(placing.id, { area });
            setPlacing(null);
          }}
          onClose={() => setPlacing(null)}
        />
      )}
    </section>
  );
}
