#!/usr/bin/env node
// Plain JavaScript, so that any Node can start it. Runs `src` in a checkout, the emitted `dist` where installed; below
// Node 22.18, which cannot strip types, it starts itself again with the Node that came with the package.
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import nodeModule, { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const [major, minor] = process.versions.node.split('.').map(Number);

if (major > 22 || (major === 22 && minor >= 18)) {
  // What was compiled once is not compiled again: half of what a start takes. Without a temporary folder it goes without.
  if (existsSync(tmpdir())) nodeModule.enableCompileCache();
  const installed = root.split(/[\\/]/).includes('node_modules');
  const source = join(root, 'src', 'cli', 'main.ts');
  const emitted = join(root, 'dist', 'cli', 'main.js');
  const entry = !installed && existsSync(source) ? source : emitted;
  const { main } = await import(`file://${entry}`);
  const status = await main(process.argv.slice(2));
  // An output that could not be written has set the status already.
  process.exitCode ||= status;
} else {
  const node = packagedNode();
  if (node === undefined) {
    console.error(
      `dryhold: needs Node 22.18 or newer, this is ${process.versions.node}; no packaged Node for ${process.platform}-${process.arch} was installed`,
    );
    process.exitCode = 70;
  } else {
    const run = spawn(node, [fileURLToPath(import.meta.url), ...process.argv.slice(2)], { stdio: 'inherit' });
    const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'];
    // A terminal tells both of Ctrl+C; all else is told this one alone.
    for (const signal of signals)
      process.on(signal, () => (signal === 'SIGINT' && process.stdin.isTTY) || run.kill(signal));
    run.on('error', () => (process.exitCode = 70));
    run.on('exit', (status, signal) => {
      for (const each of signals) process.removeAllListeners(each);
      if (signal === null) process.exitCode = status ?? 70;
      else process.kill(process.pid, signal);
    });
  }
}

/** The path of the Node binary in the optional platform package, or undefined where there is none. */
function packagedNode() {
  const platform = process.platform === 'win32' ? 'win' : process.platform;
  const name = `node-${platform}-${process.arch}`;
  try {
    const manifest = createRequire(import.meta.url).resolve(`${name}/package.json`);
    const binary = join(dirname(manifest), 'bin', process.platform === 'win32' ? 'node.exe' : 'node');
    return existsSync(binary) ? binary : undefined;
  } catch {
    return undefined;
  }
}
