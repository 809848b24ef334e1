/** Draws marks as plain SVG, for looking and for tests. */
import { hatchLines } from '../../../shared-core/drawing/hatch.ts';
import { DASHES, PEN_WIDTH, type Drawing, type Mark } from '../../../shared-core/drawing/marks.ts';
import { textWidthPx } from '../../../shared-core/drawing/type-metrics.ts';

const d = (xy: readonly number[], closed: boolean): string => {
  let out = '';
  for (let i = 0; i + 1 < xy.length; i += 2) out += `${i === 0 ? 'M' : 'L'}${(xy[i] ?? 0).toFixed(2)} ${(xy[i + 1] ?? 0).toFixed(2)}`;
  return out + (closed ? 'Z' : '');
};
const escaped = (s: string): string => s.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/"/g, '&quot;');

export function svgMark(m: Mark): string {
  switch (m.kind) {
    case 'group':
      return `<g data-name="${escaped(m.name)}">${m.marks.map(svgMark).join('')}</g>`;
    case 'path':
      return `<path d="${m.rings.map((r) => d(r.xy, r.closed)).join('')}" fill-rule="evenodd" fill="${m.fill ? `var(--${m.fill})` : 'none'}" ${
        m.pen ? `stroke="var(--${m.ink})" stroke-width="${String(PEN_WIDTH[m.pen])}"` : ''
      } ${m.dash ? `stroke-dasharray="${DASHES[m.dash].join(' ')}"` : ''}/>`;
    case 'hatch': {
      const h = hatchLines(m);
      let dots = '';
      for (let i = 0; i + 1 < h.grains.length; i += 2) dots += `M${String(h.grains[i])} ${String(h.grains[i + 1])}h.01`;
      return `<path d="${h.lines.map((l) => d(l, false)).join('')}" fill="none" stroke="var(--${m.ink})" stroke-width="${String(h.widthPx)}"/>${
        dots ? `<path d="${dots}" stroke="var(--${m.ink})" stroke-linecap="round" stroke-width="${String(h.grainPx)}"/>` : ''
      }`;
    }
    case 'stipple': {
      let dots = '';
      for (let i = 0; i + 1 < m.xy.length; i += 2) dots += `M${String(m.xy[i])} ${String(m.xy[i + 1])}h.01`;
      return `<path d="${dots}" stroke="var(--${m.ink})" stroke-linecap="round" stroke-width="${String(m.sizePx)}"/>`;
    }
    case 'text': {
      const turn = m.turnDeg === 0 ? '' : ` transform="rotate(${String(m.turnDeg)} ${String(m.x)} ${String(m.y)})"`;
      const w = textWidthPx(m.text, m.sizePx, m);
      const x = m.anchor === 'start' ? m.x : m.anchor === 'end' ? m.x - w : m.x - w / 2;
      const clear = m.clear
        ? `<rect x="${String(x - 3)}" y="${String(m.y - m.sizePx * 0.8)}" width="${String(w + 6)}" height="${String(m.sizePx * 1.1)}" fill="var(--${m.clear})"${turn}/>`
        : '';
      return `${clear}<text x="${String(m.x)}" y="${String(m.y)}" font-family="'Source ${m.family === 'sans' ? 'Sans 3' : 'Serif 4'}'" font-size="${String(m.sizePx)}" font-weight="${String(
        m.weight,
      )}" ${m.italic ? 'font-style="italic"' : ''} fill="var(--${m.ink})" text-anchor="${m.anchor}"${turn}>${escaped(m.text)}</text>`;
    }
  }
}

export function svgDrawing(drawing: Drawing): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${String(drawing.width)}" height="${String(drawing.height)}" viewBox="0 0 ${String(drawing.width)} ${String(
    drawing.height,
  )}" font-variant-numeric="tabular-nums">${drawing.marks.map(svgMark).join('')}</svg>`;
}
