// Pictures of the renderer alone: the page build/wasm/render_page draws named scenes into textures and reads them back.
import { existsSync } from 'node:fs';
import path from 'node:path';
import { check, kRoot, openBench } from './lib.mjs';

const kPage = process.env.DRIFTBENCH_RENDER_PAGE ?? path.join(kRoot, 'build/wasm/render_page');
const kScenes = ['fresh', 'drilling', 'side', 'wide', 'starter', 'side_cutter', 'hole', 'seated', 'unseated', 'guided', 'through', 'sloped',
  'section_md', 'section_axial', 'jaw', 'jaw_front', 'jaw_drill', 'jaw_bare', 'jaw_clear'];
const kWidth = 320;
const kHeight = 240;

/** Runs `body(draw)` on a fresh page; draw(scene, options) gives a Picture. */
async function onPage(body) {
  check(existsSync(path.join(kPage, 'render_page.mjs')), `the page is not built: ${kPage}`);
  const bench = await openBench({ site: kPage });
  try {
    const page = await bench.browser.newPage();
    const troubles = [];
    page.on('pageerror', (error) => troubles.push(error.message));
    page.on('console', (line) => {
      if (/INVALID_|GL_ERROR|error/i.test(line.text()) && !/404/.test(line.text())) troubles.push(line.text());
    });
    await page.goto(bench.address);
    await page.waitForFunction(() => window.ready, null, { timeout: 60000 });
    check((await page.evaluate(() => window.problem)) === '', 'the renderer starts');
    await body(new Site(page));
    const problem = await page.evaluate(() => window.page.ccall('render_problem', 'string', [], []));
    check(problem === '', `all programs could be made: ${problem}`);
    check(troubles.length === 0, `no complaints on the console: ${troubles.join('; ')}`);
  } finally {
    await bench.close();
  }
}

/** Bytes of a picture, addressed from its bottom left corner. */
class Picture {
  constructor(bytes, width, height) {
    Object.assign(this, { bytes, width, height });
  }

  at(x, y) {
    const i = (Math.round(y) * this.width + Math.round(x)) * 4;
    return this.bytes.subarray(i, i + 3);
  }

  grey(x, y) {
    const [r, g, b] = this.at(x, y);
    return 0.3 * r + 0.59 * g + 0.11 * b;
  }

  /** Mean grey of the pixels within `reach` of a place. */
  mean(x, y, reach) {
    let sum = 0;
    let count = 0;
    for (let dy = -reach; dy <= reach; dy += 1) {
      for (let dx = -reach; dx <= reach; dx += 1) {
        sum += this.grey(x + dx, y + dy);
        count += 1;
      }
    }
    return sum / count;
  }

  /** Largest difference of a byte, and how many bytes differ by more than 2. */
  unlike(other) {
    let largest = 0;
    let many = 0;
    for (let i = 0; i < this.bytes.length; i += 1) {
      const difference = Math.abs(this.bytes[i] - other.bytes[i]);
      largest = Math.max(largest, difference);
      many += difference > 2 ? 1 : 0;
    }
    return { largest, many };
  }
}

class Site {
  constructor(page) {
    this.page = page;
  }

  call(name, ...values) {
    return this.page.evaluate(([f, v]) => window.page.ccall(f, 'number', v.map((x) => (typeof x)), v), [name, values]);
  }

  async draw(scene, { light = 0, fine = 0, width = kWidth, height = kHeight } = {}) {
    check((await this.call('render_scene', scene, light, fine)) === 1, `the page knows the scene ${scene}`);
    const base64 = await this.page.evaluate(([w, h]) => {
      const begin = window.page.ccall('render_picture', 'number', ['number', 'number'], [w, h]);
      if (begin === 0) return '';
      const bytes = window.page.HEAPU8.subarray(begin, begin + w * h * 4);
      let text = '';
      for (let i = 0; i < bytes.length; i += 8192) text += String.fromCharCode(...bytes.subarray(i, i + 8192));
      return btoa(text);
    }, [width, height]);
    check(base64 !== '', `the scene ${scene} is drawn`);
    check((await this.call('render_error')) === 0, `GL has no error after ${scene}`);
    return new Picture(Uint8Array.from(Buffer.from(base64, 'base64')), width, height);
  }

  async pixel(x, y, z) {
    return [await this.call('render_pixel', 0, kWidth, kHeight, x, y, z),
      await this.call('render_pixel', 1, kWidth, kHeight, x, y, z)];
  }
}

/** Width of the dark run around x in a row. */
function darkRun(picture, x, y, limit) {
  let left = x;
  let right = x;
  while (left > 0 && picture.grey(left - 1, y) < limit) left -= 1;
  while (right < picture.width - 1 && picture.grey(right + 1, y) < limit) right += 1;
  return right - left + 1;
}

export const cases = [
  ['every scene is drawn, in both themes and at both qualities', () => onPage(async (site) => {
    for (const scene of kScenes) {
      const dark = await site.draw(scene);
      const light = await site.draw(scene, { light: 1 });
      check(light.grey(3, kHeight - 4) > dark.grey(3, kHeight - 4) + 60, `${scene}: the corner has the theme's colour`);
      const fine = await site.draw(scene, { fine: 1 });
      // The same picture with better edges: few pixels move much.
      check(dark.unlike(fine).many < 0.35 * dark.bytes.length, `${scene}: fine quality shows the same`);
    }
  })],

  ['the same scene gives the same picture', () => onPage(async (site) => {
    const first = await site.draw('drilling');
    await site.draw('guided');
    const again = await site.draw('drilling');
    check(first.unlike(again).largest === 0, 'no byte differs');
  })],

  ['pixels stand where the projection says', () => onPage(async (site) => {
    const picture = await site.draw('hole');
    // The ink cross reaches 2.2 mm to the left of the entry; beside its arm there is foam.
    const ink = picture.grey(...await site.pixel(-1.9, 0, 0));
    const foam = picture.mean(...await site.pixel(-1.9, 1.2, 0), 1);
    check(ink < 0.6 * foam, `ink ${ink} is darker than foam ${foam}`);
    // The block's front edge: foam just inside, bench just outside of the left face.
    const inside = picture.mean(...await site.pixel(-12.2, 4, 0), 0);
    const outside = picture.mean(...await site.pixel(-13.4, 4, 0), 0);
    check(inside > 1.3 * outside, `block ${inside} beside bench ${outside}`);
  })],

  ['dense and soft halves differ, and the hole is dark inside', () => onPage(async (site) => {
    const picture = await site.draw('hole');
    const dense = picture.mean(...await site.pixel(-6, 2, 0), 3);
    const soft = picture.mean(...await site.pixel(6, 2, 0), 3);
    check(soft > dense + 12, `soft ${soft} is lighter than dense ${dense}`);
    // A point 3 mm down the near wall's foot is seen through the mouth.
    const wall = picture.mean(...await site.pixel(0.6, 1.4, -4), 1);
    check(wall < 0.85 * soft, `wall ${wall} is darker than the top ${soft}`);
  })],

  ['a section is true to scale', () => onPage(async (site) => {
    // 28 mm over the picture's height; the 3.4 mm hole leans by 4 and -3 degrees and is cut beside its axis.
    const height = 560;
    const width = 640;
    const mmPerPixel = 28 / height;
    const axial = await site.draw('section_axial', { width, height });
    // Axis at 5 mm depth: 0.4 + 5.9 tan 4 deg, 0.2 - 5.9 tan 3 deg.
    const u = 0.4 + 5.9 * Math.tan(4 * Math.PI / 180);
    const v = 0.2 - 5.9 * Math.tan(3 * Math.PI / 180);
    const across = darkRun(axial, width / 2 + u / mmPerPixel, height / 2 + v / mmPerPixel, 60) * mmPerPixel;
    check(Math.abs(across - 3.4 / Math.cos(4 * Math.PI / 180)) < 0.1, `hole is ${across} mm wide`);
    const body = await site.draw('section_md', { width, height });
    let filled = 0;
    for (let x = 0; x < width; x += 1) filled += body.grey(x, height / 2 - 100) > 45 ? 1 : 0;
    check(Math.abs(filled * mmPerPixel - 25.4) < 0.11, `block is ${filled * mmPerPixel} mm wide`);
  })],

  ['a hole is as dark in a coarse section as in a fine one', () => onPage(async (site) => {
    // The hole's axis at 5 mm depth, as in the section above.
    const u = 0.4 + 5.9 * Math.tan(4 * Math.PI / 180);
    const v = 0.2 - 5.9 * Math.tan(3 * Math.PI / 180);
    for (const height of [560, 112, 56, 40]) {
      const mmPerPixel = 28 / height;
      const axial = await site.draw('section_axial', { width: height, height });
      const hole = axial.grey(Math.floor(height / 2 + u / mmPerPixel), Math.floor(height / 2 + v / mmPerPixel));
      const beside = axial.grey(Math.floor(height / 2 - 8 / mmPerPixel), Math.floor(height / 2));
      check(hole < 20 && beside > 60, `${mmPerPixel} mm a pixel: hole ${hole}, material ${beside}`);
    }
  })],

  ['a film shows what rays lose in bone and in a pin', () => onPage(async (site) => {
    // Mass attenuation at 40 keV (Hubbell, Seltzer, NISTIR 5632, from memory): cortical bone 0.6655 cm2/g.
    const width = 240;
    const height = 240;
    const film = await site.draw('film', { width, height });
    let off = 0;
    let many = 0;
    for (let y = 8; y < height; y += 13) {
      for (let x = 8; x < width; x += 13) {
        const lost = 1 - Math.exp(-0.6655 * 1e-4 * await site.call('render_film_mass', x, y, width, height));
        many += lost > 0.2 ? 1 : 0;
        off += Math.abs(film.at(x, y)[0] - 255 * lost) > 4 ? 1 : 0;
      }
    }
    check(many > 60, `rays are lost at ${many} points`);
    check(off <= 6, `${off} points differ from what is added up along the ray`);
    // 2 mm of iron, 7.874 g/cm3 and 3.629 cm2/g, let 0.3 % through.
    const pin = await site.draw('film_pin', { width, height });
    check(pin.at(width / 2, height / 2 - 34)[0] >= 252, 'the pin is white');
    check(Math.abs(pin.at(width / 2, height / 2 + 20)[0] - film.at(width / 2, height / 2 + 20)[0]) <= 1, 'beside it nothing changed');
    // 4 mm of titanium, 4.51 g/cm3 and 2.214 cm2/g, let 1.8 % through; the bone before and behind it takes more.
    const metal = await site.draw('film_implant', { width, height });
    const row = Array.from({ length: width }, (_, x) => metal.at(x, height / 2)[0]);
    const axis = Math.round(width / 2 - 3 / (28 / height));
    check(row[axis] >= 250, `the implant beside the site is ${row[axis]} of 255`);
    check(row[axis + Math.round(3 / (28 / height))] < row[axis] - 40, 'the bone beside it is darker');
    // Its edge, 2 mm out, falls off within the half voxel (0.2 mm) on each side.
    const inside = row.filter((value, x) => Math.abs(x - axis) < 4 / (28 / height) && value > 235).length * 28 / height;
    check(inside > 2.8 && inside < 4.3, `it is ${inside} mm wide`);
  })],

  ['a slice shows what the volume holds, smoothly and by single voxels, drilled and not', () => onPage(async (site) => {
    const width = 320;
    const height = 320;
    for (const scene of ['slice_linear', 'slice_nearest', 'slice_drilled']) {
      const picture = await site.draw(scene, { width, height });
      let many = 0;
      let off = 0;
      let largest = 0;
      for (let y = 8; y < height; y += 13) {
        for (let x = 8; x < width; x += 13) {
          const value = await site.call('render_slice_value', x, y, width, height);
          if (value > 1950) continue;  // the texture ends at 2,040; enamel is denser
          const wrong = Math.abs(picture.at(x, y)[0] - value / 2040 * 255);
          largest = Math.max(largest, wrong);
          off += wrong > 2.5 ? 1 : 0;
          many += value > 50 ? 1 : 0;
        }
      }
      check(many > 80, `${scene}: ${many} points lie in tissue`);
      // Density is stored in steps of 8 mg/cm3 (1 grey level) and mixed with 8-bit weights. Beside air the stored
      // density is carried on by two voxels, so a few points at surfaces differ more.
      check(off <= 0.02 * 625, `${scene}: ${off} points differ, the largest by ${largest.toFixed(1)} grey levels`);
    }
    const whole = await site.draw('slice_linear', { width, height });
    const drilled = await site.draw('slice_drilled', { width, height });
    check(whole.unlike(drilled).many > 2000, 'the hole is black in the slice');
  })],

  ['the outline of an implant lies where the plane cuts it', () => onPage(async (site) => {
    // A cylinder of 4 mm, 10 mm long, seen in a plane through its axis: 28 mm over 560 pixels.
    const picture = await site.draw('slice_implant', { width: 560, height: 560 });
    const row = 280;  // its middle
    let left = 0;
    let right = 0;
    for (let x = 200; x < 280; x += 1) if (picture.grey(x, row) > picture.grey(left || 200, row)) left = x;
    for (let x = 280; x < 360; x += 1) if (picture.grey(x, row) > picture.grey(right || 280, row)) right = x;
    const wide = (right - left) * 28 / 560;
    check(Math.abs(wide - 4) < 0.15, `the outlines are ${wide} mm apart`);
  })],

  ['a piece of jaw shows its tissues where it is cut, bare and clear', () => onPage(async (site) => {
    const cut = await site.draw('jaw');
    const bare = await site.draw('jaw_bare');
    const clear = await site.draw('jaw_clear');
    const pink = (picture) => {
      let count = 0;
      for (let y = 0; y < kHeight; y += 1) for (let x = 0; x < kWidth; x += 1) {
        const [r, g] = picture.at(x, y);
        count += r > 110 && r > 1.35 * g ? 1 : 0;
      }
      return count;
    };
    const yellow = (picture) => {
      let count = 0;
      for (let y = 0; y < kHeight; y += 1) for (let x = 0; x < kWidth; x += 1) {
        const [r, g, b] = picture.at(x, y);
        count += r > 90 && g > 60 && b < 0.62 * g ? 1 : 0;
      }
      return count;
    };
    check(pink(cut) > 300, `gum is pink: ${pink(cut)} pixels`);
    check(pink(bare) < 0.2 * pink(cut), `without gum: ${pink(bare)} pixels`);
    check(yellow(cut) > 20, `the nerve is cut: ${yellow(cut)} pixels`);
    check(yellow(clear) > yellow(bare) + 100, `clear bone shows the nerve: ${yellow(clear)} against ${yellow(bare)} pixels`);
  })],

  ['a drill darkens the gum beside it, and nothing else', () => onPage(async (site) => {
    const alone = await site.draw('jaw_front');
    const drilled = await site.draw('jaw_drill');
    // Rows 150: the crest in front of the drill's foot, left and right of it; 110: the gum well below.
    for (const x of [144, 182]) {
      const [with_drill, without] = [drilled.mean(x, 150, 2), alone.mean(x, 150, 2)];
      check(with_drill < without - 3, `beside the drill ${with_drill}, without it ${without}`);
    }
    check(Math.abs(drilled.mean(160, 110, 4) - alone.mean(160, 110, 4)) < 0.5, 'gum far from the drill is as bright as before');
  })],

  ['a changed box gives the picture of a whole upload', () => onPage(async (site) => {
    const before = await site.draw('wide');
    await site.call('render_drill', 4.3, -3.1, 6.2, 1);
    const byBox = await site.draw('wide');
    await site.call('render_drill', 4.3, -3.1, 6.2, 0);
    const whole = await site.draw('wide');
    check(before.unlike(byBox).many > 100, 'the new hole is seen');
    check(byBox.unlike(whole).largest === 0, 'both ways give the same bytes');
  })],

  ['a lifted guide shows', () => onPage(async (site) => {
    const seated = await site.draw('seated');
    const lifted = await site.draw('unseated');
    // Right where the sole of the left front foot stood, the block can be seen again.
    const sole = await site.pixel(-10, -12, 0.2);
    check(lifted.mean(...sole, 1) > seated.mean(...sole, 1) + 10, 'the foam is lighter where the sole stood');
  })],

  ['pictures come back after a lost context', () => onPage(async (site) => {
    const before = await site.draw('drilling');
    await site.page.evaluate(() => new Promise((resolve) => {
      const canvas = document.getElementById('canvas');
      const extension = canvas.getContext('webgl2').getExtension('WEBGL_lose_context');
      canvas.addEventListener('webglcontextlost', (event) => {
        event.preventDefault();
        setTimeout(() => extension.restoreContext(), 50);
      }, { once: true });
      canvas.addEventListener('webglcontextrestored', resolve, { once: true });
      extension.loseContext();
    }));
    const problem = await site.page.evaluate(() => window.page.ccall('render_start', 'string', ['number'], [1]));
    check(problem === '', `the renderer starts again: ${problem}`);
    const after = await site.draw('drilling');
    check(before.unlike(after).largest === 0, 'no byte differs');
  })],
];
