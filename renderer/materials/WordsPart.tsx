import type { Update } from '../book/write.ts';
import type { Material, PowderSheet } from '../../shared-core/book/material.ts';
import { CheckRow } from '../parts/Choices.tsx';
import { TextField, checkName } from '../parts/Fields.tsx';

interface WordsPartProps {
  readonly material: Material;
  readonly edit: (label: string, update: Update<Material>) => void;
}

type Bond = PowderSheet['bondsTo'][number];
const BONDS: readonly (readonly [Bond, string])[] = [
  ['concrete', 'Concrete'],
  ['plywood', 'Plywood'],
  ['osb', 'OSB'],
  ['planks', 'Planks'],
  ['adhesive', 'Adhesive residue'],
  ['tile', 'Ceramic or stone tile'],
  ['resilient-tile', 'Resilient tile (VCT)'],
  ['gypsum', 'Gypsum'],
  ['metal', 'Metal'],
  ['old-leveling', 'Old underlayment'],
];

export function WordsPart({ material, edit }: WordsPartProps) {
  return (
    <div className="materials-words">
      <div>
        <TextField
          label="Name"
          value={material.name}
          check={checkName}
          emptyMessage="Enter a name."
          onChange={(name) => name !== '' && edit('name of the data sheet', { name })}
        />
        <TextField
          label="Source of the figures"
          value={material.sheetFrom}
          placeholder="manufacturer’s data sheet, January 2026"
          onChange={(sheetFrom) => edit('source of the data sheet', { sheetFrom })}
        />
        <TextField label="Notes" long value={material.notes} onChange={(notes) => edit('notes on the data sheet', { notes })} />
      </div>
      <div>
        <TextField
          label="Cautions on the label"
          long
          value={material.cautions}
          hint="Shown beside the usual cautions. The label and local rules come first."
          onChange={(cautions) => edit('cautions on the data sheet', { cautions })}
        />
        <CheckRow label="Contains silica" checked={material.silica} onChange={(silica) => edit('silica content', { silica })} />
        {material.powder !== null && (
          <CheckRow
            label="Can be left bare with a sealer"
            checked={material.powder.wearsBare}
            onChange={(wearsBare) => edit('wear surface', (m) => (m.powder === null ? m : { ...m, powder: { ...m.powder, wearsBare } }))}
          />
        )}
      </div>
      {material.powder !== null && (
        <section aria-label="Substrates">
          <h3 className="caption">Substrates</h3>
          <div className="materials-bonds">
            {BONDS.map(([value, word]) => (
              <CheckRow
                key={value}
                label={word}
                checked={material.powder?.bondsTo.includes(value) === true}
                onChange={(on) => edit('substrates', (m) => withBond(m, value, on))}
              />
            ))}
          </div>
          <p className="small">
            Check every substrate the data sheet allows, with its primer. If none is checked, the substrate never causes a hold.
          </p>
        </section>
      )}
    </div>
  );
}

function withBond(material: Material, bond: Bond, on: boolean): Material {
  const { powder } = material;
  if (powder === null) return material;
  const others = powder.bondsTo.filter((b) => b !== bond);
  return { ...material, powder: { ...powder, bondsTo: on ? [...others, bond] : others } };
}
