import { useState } from 'react';
import type { Material } from '../../shared-core/book/material.ts';
import { containerOf } from '../../shared-core/material/containers.ts';
import { formatDay } from '../../shared-core/measure/day.ts';
import { priceOnDay } from '../../shared-core/price/price-on-day.ts';
import { DateField, Fields, MoneyField, TextField } from '../parts/Fields.tsx';
import { Folded } from '../parts/Folded.tsx';
import { Pointer } from '../parts/Pointer.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { Form } from '../parts/Dialog.tsx';
import { useMeasure, useMoney } from '../parts/use-measure.ts';

type Price = Material['prices'][number];

interface PricePartProps {
  readonly material: Material;
  readonly today: string;
  readonly onAdd: (price: Price) => void;
  readonly onRemove: (price: Price) => void;
}

/** Prices of a container by date. Issued quotes keep the price they were made with. */
export function PricePart({ material, today, onAdd, onRemove }: PricePartProps) {
  const { locale } = useMeasure();
  const money = useMoney();
  const [minor, setMinor] = useState<number | null>(null);
  const [from, setFrom] = useState<string | null>(today);
  const [note, setNote] = useState('');
  const [asked, setAsked] = useState(false);
  const current = priceOnDay(material, today);
  const newestFirst = material.prices.toSorted((a, b) => b.from.localeCompare(a.from));
  const add = (): void => {
    setAsked(true);
    if (minor === null || from === null) return;
    onAdd({ from, minor, note });
    setMinor(null);
    setFrom(today);
    setNote('');
    setAsked(false);
  };
  return (
    <section className="materials-part" aria-labelledby="materials-price">
      <h2 className="materials-part-head" id="materials-price">
        {`Price per ${containerOf(material).name}`}
      </h2>
      <p className="caption">Open estimates use the price effective today. Issued quotes keep their price.</p>
      {newestFirst.length === 0 ? (
        <p className="small">No price yet. Estimates cannot include it.</p>
      ) : (
        <ul className="price-list">
          {newestFirst.map((price) => (
            <li key={price.from} className={price.from === current?.from ? 'price-current' : ''}>
              <span>{price.from === current?.from && <Pointer widthPx={12} />}</span>
              <span className="price-amount">{money(price.minor)}</span>
              <span>
                {`From ${formatDay(price.from, 'dated', locale)}`}
                {price.from === current?.from && <b> Current</b>}
                {price.note !== '' && <i className="second"> {price.note}</i>}
              </span>
              <TextButton
                kind="plain"
                label={`Delete the price from ${formatDay(price.from, 'dated', locale)}`}
                onPress={() => onRemove(price)}
              >
                Delete
              </TextButton>
            </li>
          ))}
        </ul>
      )}
      <Folded label="Add price" holds={`per ${containerOf(material).name}, with its effective date`}>
        <Form>
          <Fields>
            <MoneyField
              label="New price"
              unit={`per ${containerOf(material).name}`}
              value={minor}
              onChange={setMinor}
              problem={asked && minor === null ? `Enter the price of one ${containerOf(material).name}.` : null}
            />
            <DateField
              label="Effective date"
              today={today}
              value={from}
              onChange={setFrom}
              problem={asked && from === null ? 'Enter the date this price starts.' : null}
            />
            <TextField label="Note" value={note} onChange={setNote} placeholder="where, how many" />
          </Fields>
          <TextButton kind="outlined" saves onPress={add}>
            Add price
          </TextButton>
        </Form>
      </Folded>
    </section>
  );
}
