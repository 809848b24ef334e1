import { PourButton } from '../parts/PourButton.tsx';

export function PourGallery() {
  return (
    <main style={{ minHeight: '100dvh', display: 'grid', alignContent: 'end', gap: 20, padding: 20 }}>
      <h1 style={{ font: '600 clamp(80px, 20vw, 190px)/1 var(--sans)' }}>8:40</h1>
      <div style={{ display: 'grid', gridTemplateColumns: 'repeat(auto-fit, minmax(160px, 1fr))', gap: 16 }}>
        <PourButton onPress={() => undefined} detail="batch 13 landed">
          Undo
        </PourButton>
        <PourButton kind="next" keys="space" onPress={() => undefined}>
          Batch 14 landed
        </PourButton>
        <PourButton onPress={() => undefined} detail="flow test, stop, photo">
          Something else
        </PourButton>
        <PourButton onPress={() => undefined} disabled detail="the room is full">
          Next lift
        </PourButton>
      </div>
    </main>
  );
}
