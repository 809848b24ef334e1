import type { ReactNode } from 'react';
import './gallery.css';

export function Shown({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <section className="gallery-shown">
      <h2 className="caption">{name}</h2>
      <div className="gallery-inner">{children}</div>
    </section>
  );
}
