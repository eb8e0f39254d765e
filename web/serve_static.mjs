// Serves one folder on 127.0.0.1 with correct types: node serve_static.mjs FOLDER [PORT]
// A browser may keep a file, but asks each time whether it is still the same.
import { createHash } from 'node:crypto';
import http from 'node:http';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const kTypes = {
  '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8', '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8', '.wasm': 'application/wasm', '.json': 'application/json', '.csv': 'text/csv; charset=utf-8',
  '.svg': 'image/svg+xml', '.png': 'image/png', '.ttf': 'font/ttf', '.webmanifest': 'application/manifest+json',
};

/** Starts the server; port 0 takes a free one. Gives {server, address, close}. */
export async function serve(folder, port = 0) {
  const root = path.resolve(folder);
  const server = http.createServer(async (request, response) => {
    const refuse = (status) => response.writeHead(status, { 'content-type': 'text/plain' }).end(`${status}\n`);
    if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(405);
    try {
      let name = decodeURIComponent(new URL(request.url, 'http://localhost').pathname);
      if (name.endsWith('/')) name += 'index.html';
      const file = path.join(root, name);
      if (!file.startsWith(root + path.sep)) return refuse(404);
      const bytes = await readFile(file);
      const kept = { 'cache-control': 'no-cache', etag: `"${createHash('sha256').update(bytes).digest('base64url')}"` };
      if (request.headers['if-none-match'] === kept.etag) return response.writeHead(304, kept).end();
      response.writeHead(200, {
        'content-type': kTypes[path.extname(file)] ?? 'application/octet-stream',
        'content-length': bytes.length, ...kept, 'x-content-type-options': 'nosniff',
      });
      response.end(request.method === 'HEAD' ? undefined : bytes);
    } catch {
      refuse(404);
    }
  });
  await new Promise((resolve, reject) => server.once('error', reject).listen(port, '127.0.0.1', resolve));
  return {
    server,
    address: `http://127.0.0.1:${server.address().port}/`,
    close: () => new Promise((resolve) => { server.close(resolve); server.closeAllConnections?.(); }),
  };
}

if (process.argv[1] && path.resolve(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const [folder, port = '8000'] = process.argv.slice(2);
  try {
    const { address } = await serve(folder, Number(port));
    console.log(`Driftbench is at ${address} (Ctrl+C stops it)`);
  } catch (error) {
    const inUse = error.code === 'EADDRINUSE';
    console.error(inUse ? `driftbench: port ${port} is in use; choose another with --port.` : `driftbench: ${error.message}`);
    process.exitCode = 1;
  }
}
