// Programs that run beside the tests: a screen of its own for browsers that draw only on one, and free ports.
import { spawn } from 'node:child_process';
import net from 'node:net';

/** Starts a program; {process, end()}. Nothing of it stays when the tests end. */
export function start(program, words, { env = {}, stdio = 'ignore' } = {}) {
  const child = spawn(program, words, { stdio, env: { ...process.env, ...env }, detached: true });
  const whole = (signal) => { try { process.kill(-child.pid, signal); } catch { /* it has ended */ } };
  const atExit = () => whole('SIGKILL');
  process.once('exit', atExit);
  const ended = new Promise((resolve) => { child.once('exit', resolve); child.once('error', resolve); });
  return {
    process: child,
    end: async () => {
      whole('SIGTERM');
      await Promise.race([ended, new Promise((resolve) => { setTimeout(resolve, 3000); })]);
      whole('SIGKILL');
      process.removeListener('exit', atExit);
    },
  };
}

export function freePort() {
  return new Promise((resolve, reject) => {
    const server = net.createServer();
    server.once('error', reject).listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}

/** A screen in memory: {name for DISPLAY, end()}. */
export async function startScreen() {
  const screen = start('Xvfb', ['-displayfd', '3', '-screen', '0', '1400x1000x24', '-nolisten', 'tcp'], { stdio: ['ignore', 'ignore', 'ignore', 'pipe'] });
  const name = await new Promise((resolve, reject) => {
    screen.process.once('error', reject);
    screen.process.once('exit', (code) => reject(new Error(`Xvfb ended with ${code}`)));
    screen.process.stdio[3].once('data', (bytes) => resolve(`:${String(bytes).trim()}`));
  });
  return { name, end: screen.end };
}
