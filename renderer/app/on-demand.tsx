import { type ComponentType, type ReactNode, useEffect, useState } from 'react';

type OnDemand<P> = ComponentType<P> & {
  /** Loads the code ahead of the first use. Never rejects; code that fails to load is requested again when it is used. */
  readonly preload: () => Promise<void>;
};

/**
 * A component whose code loads when it is first used. React's own `lazy` shows its fallback for at least 300 ms even when the code
 * is there at once; this one renders loaded code in the same frame.
 * @param load imports the component
 * @param waiting shown until it is loaded
 */
export function onDemand<P extends object>(load: () => Promise<ComponentType<P>>, waiting: ReactNode): OnDemand<P> {
  let Loaded: ComponentType<P> | null = null;
  const ready = async (): Promise<void> => {
    Loaded ??= await load();
  };
  function OnDemandComponent(props: P) {
    const [failure, setFailure] = useState<Error | null>(null);
    const [, setLoaded] = useState(Loaded !== null);
    useEffect(() => {
      if (Loaded === null)
        ready().then(
          () => setLoaded(true),
          (reason: unknown) => setFailure(reason instanceof Error ? reason : new Error(String(reason))),
        );
    }, []);
    if (failure !== null) throw failure;
    return Loaded === null ? waiting : <Loaded {...props} />;
  }
  return Object.assign(OnDemandComponent, { preload: () => ready().catch(() => undefined) });
}
