import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Material, PowderSheet } from '../../shared-core/book/material.ts';
import { formatDay } from '../../shared-core/measure/day.ts';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { contradictions } from '../../shared-core/material/contradictions.ts';
import { formatMoney, parseMoney } from '../../shared-core/price/money.ts';
import { nowInstant } from '../book/moment.ts';
import { useAll, useBusiness } from '../book/use-records.ts';
import { change } from '../book/write.ts';
import { ActionButton } from '../parts/ActionButton.tsx';
import { ChoiceStood } from '../parts/ChoiceStood.tsx';
import { EmptySheet } from '../parts/EmptySheet.tsx';
import { Field } from '../parts/Field.tsx';
import { Fields } from '../parts/Fields.tsx';
import { Notice } from '../parts/Notice.tsx';
import { QuantityField } from '../parts/QuantityField.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { TextField } from '../parts/TextField.tsx';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';
import { useMeasure } from '../parts/use-measure.ts';

/** The data sheets estimates reckon with. */
export function MaterialsScreen({ materialId }: { readonly materialId?: string }) {
  const [, go] = useLocation();
  const materials = useAll('materials');
  const business = useBusiness();
  const { units, locale } = useMeasure();
  const [problem, setProblem] = useState<string | null>(null);
  if (materials === undefined || business === undefined) return <p className="app-opening caption">Reading the book…</p>;
  const sheet = materials.find((m) => m.id === materialId) ?? materials[0];
  if (sheet === undefined) {
    return (
      <Sheet page="Materials" who={{ name: business.name === '' ? 'Your business' : business.name }}>
        <SheetHeading>Materials</SheetHeading>
        <EmptySheet what="Data sheets go here." />
      </Sheet>
    );
  }
  const edit = (label: string, how: (m: Material) => Material): void =>
    void change('materials', sheet.id, label, nowInstant(), how).then((o) => setProblem(o.ok ? null : o.message));
  const editPowder = (label: string, how: (p: PowderSheet) => PowderSheet): void =>
    edit(label, (m) => (m.powder === null ? m : { ...m, typical: false, powder: how(m.powder) }));
  const { powder } = sheet;
  const price = sheet.prices.at(-1) ?? null;
  const today = dayOfInstant(nowInstant(), business.timeZone);
  const odd = contradictions(sheet, units, locale);
  return (
    <Sheet
      page="Materials"
      who={{ name: business.name === '' ? 'Your business' : business.name, where: 'Data sheets' }}
      block={
        <>
          <BlockPart>
            <ChoiceStood
              label="Data sheets"
              options={materials.map((m) => ({ id: m.id, word: m.name, right: m.typical ? 'typical' : 'own' }))}
              value={sheet.id}
              onChange={(id) => go(`/materials/${id}`)}
            />
          </BlockPart>
          {odd.map((c) => (
            <BlockPart key={c.message}>
              <p>{c.message}</p>
            </BlockPart>
          ))}
        </>
      }
      foot={
        <p className="speech">
          {sheet.typical ? 'These figures are typical: type the bag’s own over them.' : 'Estimates reckon with these figures.'}
        </p>
      }
      action={<ActionButton href="/jobs">Back to the jobs</ActionButton>}
    >
      <SheetHeading under={sheet.typical ? 'Typical, until a bag’s own sheet replaces it.' : sheet.sheetFrom}>{sheet.name}</SheetHeading>
      {problem !== null && (
        <Notice kind="failure" onClose={() => setProblem(null)}>
          {problem}
        </Notice>
      )}
      <Fields wide>
        <TextField
          label="Name, in the trade’s words"
          value={sheet.name}
          emptyMessage="A name is needed here."
          onChange={(name) => edit('name of a sheet', (m) => ({ ...m, name }))}
        />
        <Field
          label={`Price a ${sheet.container.name}`}
          value={price?.minor ?? null}
          hint={price === null ? 'no price yet' : `since ${formatDay(price.from, 'short', locale)}`}
          parse={(text) => parseMoney(text, business.currency, locale)}
          format={(minor) => formatMoney(minor, business.currency, locale, 'bare')}
          onChange={(minor) =>
            minor !== null &&
            edit('a price', (m) => ({ ...m, prices: [...m.prices.filter((p) => p.from !== today), { from: today, minor, note: '' }] }))
          }
        />
      </Fields>
      {powder !== null && (
        <Fields>
          <QuantityField
            kind="mass"
            label="Bag"
            typical={powder.bagKg.source === 'typical'}
            value={powder.bagKg.value}
            emptyMessage="A mass is needed."
            onChange={(kg) => kg !== null && editPowder('mass of a bag', (p) => ({ ...p, bagKg: { value: kg, source: 'bag' } }))}
          />
          <QuantityField
            kind="volume"
            label="Yield"
            typical={powder.yieldM3.source === 'typical'}
            value={powder.yieldM3.value}
            emptyMessage="A yield is needed."
            check={(m3) => (m3 > 0 ? null : 'A yield of zero makes no floor: read it off the bag.')}
            onChange={(m3) => m3 !== null && editPowder('yield of a bag', (p) => ({ ...p, yieldM3: { value: m3, source: 'bag' } }))}
          />
          <QuantityField
            kind="liquid"
            label="Water, least"
            typical={powder.waterL.source === 'typical'}
            value={powder.waterL.value.least}
            emptyMessage="Water is needed."
            onChange={(least) =>
              least !== null && editPowder('least water', (p) => ({ ...p, waterL: { value: { ...p.waterL.value, least }, source: 'bag' } }))
            }
          />
          <QuantityField
            kind="liquid"
            label="Water, most"
            typical={powder.waterL.source === 'typical'}
            value={powder.waterL.value.most}
            emptyMessage="Water is needed."
            onChange={(most) =>
              most !== null && editPowder('most water', (p) => ({ ...p, waterL: { value: { ...p.waterL.value, most }, source: 'bag' } }))
            }
          />
          <QuantityField
            kind="depth"
            label="Lift, least"
            typical={powder.liftM.source === 'typical'}
            value={powder.liftM.value.least}
            emptyMessage="A thickness is needed."
            onChange={(least) =>
              least !== null && editPowder('least lift', (p) => ({ ...p, liftM: { value: { ...p.liftM.value, least }, source: 'bag' } }))
            }
          />
          <QuantityField
            kind="depth"
            label="Lift, most"
            typical={powder.liftM.source === 'typical'}
            value={powder.liftM.value.most}
            emptyMessage="A thickness is needed."
            onChange={(most) =>
              most !== null && editPowder('most lift', (p) => ({ ...p, liftM: { value: { ...p.liftM.value, most }, source: 'bag' } }))
            }
          />
          <QuantityField
            kind="temperature"
            label="Least cure temperature"
            typical={powder.leastCureTempC.source === 'typical'}
            value={powder.leastCureTempC.value}
            emptyMessage="A temperature is needed."
            onChange={(c) =>
              c !== null && editPowder('least cure temperature', (p) => ({ ...p, leastCureTempC: { value: c, source: 'bag' } }))
            }
          />
        </Fields>
      )}
      <TextField
        label="Cautions on the sheet"
        long
        value={sheet.cautions}
        onChange={(cautions) => edit('cautions', (m) => ({ ...m, cautions }))}
      />
      <TextField label="Notes" long value={sheet.notes} onChange={(notes) => edit('notes', (m) => ({ ...m, notes }))} />
    </Sheet>
  );
}
