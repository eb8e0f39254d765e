// A small writer of SVG pictures: text, lines, marks with black casings, axes.

const escape = (text) => String(text).replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
const n = (value) => String(Math.round(value * 100) / 100);

/// Shape and colour of each approach and of published figures; nothing rests on colour alone.
const kMarks = {
  freehand: { fill: '#E69F00', path: (r) => `M ${-r} 0 A ${r} ${r} 0 1 1 ${r} 0 A ${r} ${r} 0 1 1 ${-r} 0 Z` },
  sleeve: { fill: '#7B3294', path: (r) => `M 0 ${-1.25 * r} L ${1.25 * r} 0 L 0 ${1.25 * r} L ${-1.25 * r} 0 Z` },
  pilot: { fill: '#FFFFFF', path: (r) => `M 0 ${-1.2 * r} L ${1.1 * r} ${0.8 * r} L ${-1.1 * r} ${0.8 * r} Z` },
  published: { fill: '#BBBBBB', path: (r) => `M ${-r} ${-r} H ${r} V ${r} H ${-r} Z` },
  other: { fill: '#56B4E9', path: (r) => `M ${-1.1 * r} ${-0.8 * r} H ${1.1 * r} L 0 ${1.2 * r} Z` },
};

export class Svg {
  constructor(width, height, title, description) {
    this.width = width;
    this.height = height;
    this.parts = [];
    this.head = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${n(width)} ${n(height)}" width="${n(width)}" height="${n(height)}" role="img" `
      + `font-family="Open Sans, Arial, sans-serif" font-size="14">\n<title>${escape(title)}</title>\n<desc>${escape(description)}</desc>\n`
      + `<rect width="${n(width)}" height="${n(height)}" fill="#FFFFFF"/>\n`;
  }

  text(x, y, content, { anchor = 'start', size = 14, weight = 400, colour = '#111111', turn = 0 } = {}) {
    const rotate = turn === 0 ? '' : ` transform="rotate(${n(turn)} ${n(x)} ${n(y)})"`;
    this.parts.push(`<text x="${n(x)}" y="${n(y)}" text-anchor="${anchor}" font-size="${size}" font-weight="${weight}" fill="${colour}"${rotate}>${escape(content)}</text>`);
  }

  line(x1, y1, x2, y2, { colour = '#111111', width = 1.5, dash = '' } = {}) {
    this.parts.push(`<line x1="${n(x1)}" y1="${n(y1)}" x2="${n(x2)}" y2="${n(y2)}" stroke="${colour}" stroke-width="${width}"${dash ? ` stroke-dasharray="${dash}"` : ''}/>`);
  }

  rect(x, y, width, height, { fill = '#FFFFFF', stroke = '#111111', stroke_width = 1 } = {}) {
    this.parts.push(`<rect x="${n(x)}" y="${n(y)}" width="${n(Math.max(width, 0))}" height="${n(height)}" fill="${fill}" stroke="${stroke}" stroke-width="${stroke_width}"/>`);
  }

  circle(x, y, radius, { stroke = '#111111', width = 1.5, dash = '', fill = 'none' } = {}) {
    this.parts.push(`<circle cx="${n(x)}" cy="${n(y)}" r="${n(radius)}" fill="${fill}" stroke="${stroke}" stroke-width="${width}"${dash ? ` stroke-dasharray="${dash}"` : ''}/>`);
  }

  path(points, { colour = '#111111', width = 2, dash = '' } = {}) {
    const d = points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'} ${n(x)} ${n(y)}`).join(' ');
    this.parts.push(`<path d="${d}" fill="none" stroke="${colour}" stroke-width="${width}"${dash ? ` stroke-dasharray="${dash}"` : ''}/>`);
  }

  mark(kind, x, y, radius = 6) {
    const { fill, path } = kMarks[kind];
    this.parts.push(`<path d="${path(radius)}" transform="translate(${n(x)} ${n(y)})" fill="${fill}" stroke="#000000" stroke-width="${radius > 4 ? 1.6 : 0.9}"/>`);
  }

  toString() {
    return `${this.head}${this.parts.join('\n')}\n</svg>\n`;
  }
}

/// Linear scale from values to pixels.
export const scale = (low, high, from, to) => (value) => from + ((value - low) / (high - low)) * (to - from);

/// Round tick values that cover [0 or low, high].
export function ticks(low, high, about = 6) {
  const raw = (high - low) / about;
  const power = 10 ** Math.floor(Math.log10(raw) + 1e-9);
  const step = [1, 2, 5, 10].map((factor) => factor * power).find((candidate) => candidate >= raw * 0.999);
  const found = [];
  for (let i = Math.ceil(low / step - 1e-9); i * step <= high + 1e-9 * step; ++i) found.push(Math.round(i * step * 1e6) / 1e6 + 0);
  return found;
}
