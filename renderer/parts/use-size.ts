import { type RefCallback, useCallback, useState } from 'react';

export interface Size {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** The size of the element that `ref` is set on, live. Null until the first layout. */
export function useSize<E extends Element>(): { readonly ref: RefCallback<E>; readonly size: Size | null } {
  const [size, setSize] = useState<Size | null>(null);
  const ref = useCallback((element: E | null) => {
    if (element === null) return undefined;
    const take = (widthPx: number, heightPx: number) =>
      setSize((current) =>
        current !== null && current.widthPx === widthPx && current.heightPx === heightPx ? current : { widthPx, heightPx },
      );
    const box = element.getBoundingClientRect();
    take(Math.floor(box.width), Math.floor(box.height));
    const watch = new ResizeObserver((entries) => {
      const last = entries.at(-1);
      if (last !== undefined) take(Math.floor(last.contentRect.width), Math.floor(last.contentRect.height));
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return { ref, size };
}
