// Files for a page: dropped on it, or lying in a folder that is gone afterwards.
import { mkdtemp, rm } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';

export async function inFolder(work) {
  const folder = await mkdtemp(path.join(os.tmpdir(), 'driftbench-class-'));
  try {
    await work(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Drops files on the page: [name, content]. */
export function drop(hands, files) {
  const list = files.map(([name, content]) => [name, Buffer.from(content).toString('base64')]);
  return hands.page.evaluate((all) => {
    const transfer = new DataTransfer();
    for (const [name, text] of all) {
      transfer.items.add(new File([Uint8Array.from(atob(text), (c) => c.charCodeAt(0))], name));
    }
    document.getElementById('canvas').dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
  }, list);
}
