import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { onDemand } from '../../../renderer/app/on-demand.tsx';

const Hall = ({ name }: { readonly name: string }) => createElement('h1', null, name);
const shown = (screen: ReturnType<typeof onDemand<{ readonly name: string }>>) =>
  renderToStaticMarkup(createElement(screen, { name: 'Hall' }));

describe('a component loaded on demand', () => {
  it('shows a placeholder, and once loaded renders in the same pass', async () => {
    const screen = onDemand(() => Promise.resolve(Hall), 'Loading…');
    expect(shown(screen)).toBe('Loading…');
    await screen.preload();
    expect(shown(screen)).toBe('<h1>Hall</h1>');
  });

  it('requests code again that failed to load', async () => {
    let requests = 0;
    const screen = onDemand(() => {
      requests += 1;
      return requests === 1 ? Promise.reject(new Error('offline')) : Promise.resolve(Hall);
    }, 'Loading…');
    await screen.preload();
    expect(shown(screen)).toBe('Loading…');
    await screen.preload();
    expect(shown(screen)).toBe('<h1>Hall</h1>');
  });
});
