// The host of the editor tests: a workbench served on this machine with the packaged extension in a fresh profile, and a
// browser to look at it. Begun once for all files, ended after the last. What cannot be had is told as `HostMissing`.
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

export class HostMissing extends Error {}

/**
 * @typedef {object} Host
 * @property {string} url of the workbench
 * @property {string} browser where a test connects to the browser
 * @property {string} examples folder of the bundled examples
 * @property {string} folders where each test file has a copy of them, to be opened and changed
 * @property {string} settingsFile of the profile
 * @property {string} pictures folder where what was seen is left
 */

const root = fileURLToPath(new URL('../..', import.meta.url));
const script = path.join(root, 'test/editor/host.sh');
/** Outside the tree, kept between runs: the workbench is large. */
const cache = process.env.FORETICK_EDITOR_CACHE ?? path.join(tmpdir(), 'foretick-editor-host');
const profile = 'tests';

/** @returns {Promise<{ host: Host, stop: () => Promise<void> }>} */
export async function startHost() {
  // Outside continuous integration nothing is installed into a person's system.
  if (process.env.CI === undefined && findBrowser() === null) throw new HostMissing('no chromium on this machine');
  attempt('setup');
  attempt('stop', profile);
  attempt('reset', profile);
  attempt('install', packagedExtension(), profile);
  const url = attempt('start', String(await freePort()), profile).trim();
  const browser = await startBrowser();
  const settingsFile = path.join(cache, 'profiles', profile, 'data/data/User/settings.json');
  return {
    host: {
      url,
      browser: browser.wsEndpoint(),
      examples: path.join(root, 'examples'),
      folders: renewed('folders'),
      settingsFile,
      pictures: renewed('pictures'),
    },
    async stop() {
      await browser.close();
      attempt('stop', profile);
    },
  };
}

function findBrowser() {
  if (process.env.CHROMIUM !== undefined) return process.env.CHROMIUM;
  const { status, stdout } = spawnSync('which', ['chromium'], { encoding: 'utf8' });
  return status === 0 ? stdout.trim() : null;
}

/**
 * @param {string} command of host.sh
 * @param {readonly string[]} rest
 * @returns {string} what it printed
 */
function attempt(command, ...rest) {
  const { status, stderr, stdout } = spawnSync('bash', [script, command, cache, ...rest], {
    encoding: 'utf8',
    env: { HOST_LOGS: '0', ...process.env },
  });
  if (status !== 0) throw new HostMissing(`host.sh ${command}: ${stderr?.trim().split('\n').at(-1) ?? 'failed'}`);
  return stdout;
}

/** Always made anew: what is tested is what would be installed. */
function packagedExtension() {
  execFileSync(process.execPath, [path.join(root, 'client/package.mjs')], { cwd: root, stdio: 'ignore' });
  const file = readdirSync(root).find((name) => name.endsWith('.vsix'));
  if (file === undefined) throw new Error('packaging left no .vsix');
  return path.join(root, file);
}

/** @param {string} name */
function renewed(name) {
  const folder = path.join(cache, name);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  return folder;
}

/** @returns {Promise<number>} */
function freePort() {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.on('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
}

function startBrowser() {
  const executablePath = findBrowser();
  if (executablePath === null) throw new HostMissing('no chromium on this machine');
  return chromium.launchServer({
    executablePath,
    headless: true,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}
