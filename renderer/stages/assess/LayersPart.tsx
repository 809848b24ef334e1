import { updated, type Update } from '../../book/write.ts';
import { useState } from 'react';
import type { Layer, LayerMaterial } from '../../../shared-core/book/layer.ts';
import type { Plan } from '../../../shared-core/book/plan-fields.ts';
import { formatArea } from '../../../shared-core/measure/area.ts';
import { formatLength } from '../../../shared-core/measure/length-format.ts';
import { stretchOf, drawnPart, type RoomStretch, stretchOfRoom } from '../../../shared-core/plan/part-of-room.ts';
import { areaInRoomM2 } from '../../../shared-core/plan/overlap.ts';
import { LAYER_WORDS } from '../../../shared-core/substrate/layer-words.ts';
import { newId } from '../../book/command.ts';
import { YearField, QuantityField } from '../../parts/Fields.tsx';
import { SelectField } from '../../parts/Choices.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import type { Point } from '../../../shared-core/book/fields.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import { planDrawing } from '../../../shared-core/drawing/plan.ts';
import { toRoom } from '../../../shared-core/drawing/plan-walls.ts';
import { Handle, placeOn, PlanCanvas } from '../../parts/PlanCanvas.tsx';
import { firstCorner, placeWords, stepsM } from '../../parts/plan-places.ts';
import { PointList } from '../../parts/PointFields.tsx';
import { useSize } from '../../parts/DrawingView.tsx';

interface LayersPartProps {
  readonly plan: Pick<Plan, 'outline' | 'holes' | 'openings'>;
  readonly layers: readonly Layer[];
  readonly heldIds: ReadonlySet<string>;
  readonly onChange: (label: string, update: (layers: readonly Layer[]) => readonly Layer[]) => void;
}

const SOUND = { sound: 'sound', loose: 'loose', weak: 'weak', unknown: 'unknown' };
const FATES = {
  keep: 'keep',
  remove: 'remove',
  'before-readings': 'new, laid before the readings',
  'after-readings': 'new, laid after the readings',
};
const fateOf = ({ fate, laid }: Layer): keyof typeof FATES => (fate === 'keep' && laid !== undefined ? laid : fate);

/** A layer that stays, comes out, or is laid new. */
function withFate({ laid: _laid, ...layer }: Layer, to: keyof typeof FATES): Layer {
  if (to === 'keep' || to === 'remove') return { ...layer, fate: to };
  return { ...layer, fate: 'keep', laid: to };
}

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
              value={fateOf(layer)}
              options={FATES}
              onChange={(to) => set(layer.id, (now) => withFate(now, to))}
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
                onPress={() => onChange(`delete ${LAYER_WORDS[layer.material]}`, (all) => all.filter((l) => l.id !== layer.id))}
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
            if (material !== null) onChange(`add ${LAYER_WORDS[material]}`, (all) => [...all, newLayer(material)]);
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

/** Sides by their place on the plan. */
const SIDE_WORDS: Readonly<Record<RoomStretch['side'], string>> = { left: 'left', right: 'right', top: 'top', bottom: 'bottom' };

const PLACES = {
  whole: 'whole room',
  left: 'along the left wall',
  right: 'along the right wall',
  top: 'along the top wall',
  bottom: 'along the bottom wall',
  drawn: 'area drawn on the plan',
};

interface PartDialogProps {
  readonly plan: Pick<Plan, 'outline' | 'holes' | 'openings'>;
  /** The layer: `slab on grade`. */
  readonly of: string;
  readonly area: readonly Point[] | null;
  readonly onSave: (area: Point[] | null) => void;
  readonly onClose: () => void;
}

/** Extent of a layer: the whole room, a strip along one side of the plan, or an area drawn by corners. */
function PartDialog({ plan, of, area, onSave, onClose }: PartDialogProps) {
  const stretch = area === null ? null : stretchOf(plan, area);
  const [side, setSide] = useState<RoomStretch['side'] | 'whole' | 'drawn'>(stretch?.side ?? (area === null ? 'whole' : 'drawn'));
  const [depthM, setDepthM] = useState<number | null>(stretch?.depthM ?? null);
  const [corners, setCorners] = useState<readonly Point[]>(area ?? []);
  const [problem, setProblem] = useState<string | null>(null);
  const save = (): void => {
    if (side === 'whole') return onSave(null);
    const part = side === 'drawn' ? drawnPart(plan, corners) : stretchOfRoom(plan, { side, depthM: depthM ?? 0 });
    return part.ok ? onSave(part.value) : setProblem(part.message);
  };
  return (
    <Dialog wide={side === 'drawn'} onClose={onClose} title={`Extent of ${of}`} problem={problem} onSave={save}>
      <p className="caption">
        Sides are as on the plan. Where the floor changes, enter how far each part extends from its wall, or draw it by its corners.
      </p>
      <SelectField
        label="Extent"
        options={PLACES}
        value={side}
        onChange={(to) => {
          setSide(to);
          setProblem(null);
        }}
      />
      {side === 'drawn' && <DrawnPart plan={plan} corners={corners} onChange={setCorners} />}
      {side !== 'whole' && side !== 'drawn' && (
        <QuantityField kind="wall" label={`From the ${SIDE_WORDS[side]} wall`} value={depthM} onChange={setDepthM} autoFocus />
      )}
    </Dialog>
  );
}

interface DrawnPartProps {
  readonly plan: Pick<Plan, 'outline' | 'holes' | 'openings'>;
  readonly corners: readonly Point[];
  readonly onChange: (corners: readonly Point[]) => void;
}

const MOST_CORNERS = 60;
const HEIGHT_PX = 300;

/** An area by its corners: clicked on the plan, dragged, moved by the arrow keys, or entered. */
function DrawnPart({ plan, corners, onChange }: DrawnPartProps) {
  const { units, locale } = useMeasure();
  const { ref, size } = useSize<HTMLDivElement>('area');
  const first = firstCorner(plan.outline);
  const moveCorner = (i: number, to: Point): void => onChange(corners.map((p, k) => (k === i ? to : p)));
  const add = (point: Point): void => {
    if (corners.length < MOST_CORNERS) onChange([...corners, point]);
  };
  const drawing =
    size === null || size.widthPx === 0
      ? null
      : planDrawing({
          plan,
          widthPx: size.widthPx,
          heightPx: HEIGHT_PX,
          shows: 'prep',
          lengthText: (m) => formatLength(m, units, locale),
          marginPx: { left: 30, right: 30, top: 30, bottom: 24 },
        });
  const fit = drawing?.fit ?? null;
  const places = fit === null ? [] : corners.map((corner) => placeOn(fit, corner));
  const path = places.map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${x} ${y}`).join('');
  const steps = stepsM(units);
  return (
    <>
      <p className="small" role="status">
        {corners.length < 3
          ? 'Click or tap the corners on the plan in order, or add them and enter their positions.'
          : `${formatArea(areaInRoomM2(plan, corners), units, locale)} of the floor.`}
      </p>
      <div ref={ref} className="part-drawn">
        {drawing !== null && fit !== null && (
          <PlanCanvas
            label="Plan: click or tap the corners of the area in order."
            widthPx={drawing.width}
            heightPx={drawing.height}
            marks={drawing.marks}
            onTap={({ x, y }) => add(toRoom(fit, x, y))}
          >
            <path d={`${path}${corners.length > 2 ? 'Z' : ''}`} className="plan-drawn part-drawn-area" />
            {corners.map((corner, i) => (
              <Handle
                key={i}
                shape="corner"
                place={placeOn(fit, corner)}
                label={`Corner ${i + 1} of the area, ${placeWords(plan.outline, corner, units, locale)}. Arrow keys move it.`}
                onDrag={(place) => moveCorner(i, toRoom(fit, place.x, place.y))}
                onStep={(dx, dy, isFine) => {
                  const step = isFine ? steps.fine : steps.plain;
                  moveCorner(i, { xM: corner.xM + dx * step, yM: corner.yM + dy * step });
                }}
                onDelete={() => onChange(corners.filter((_, k) => k !== i))}
              />
            ))}
          </PlanCanvas>
        )}
      </div>
      <div className="part-corners">
        {corners.length > 0 && <p className="caption">Across and down from the first corner of the room</p>}
        <PointList
          points={corners}
          origin={first}
          label={(number) => `Corner ${number} of the area`}
          onPoint={moveCorner}
          after={(i) => (
            <TextButton kind="plain" label={`Delete corner ${i + 1}`} onPress={() => onChange(corners.filter((_, k) => k !== i))}>
              Delete
            </TextButton>
          )}
        />
      </div>
      <TextButton onPress={() => add(corners.at(-1) ?? first)} disabled={corners.length >= MOST_CORNERS}>
        Add corner
      </TextButton>
    </>
  );
}
