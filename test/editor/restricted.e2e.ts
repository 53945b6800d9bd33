// In a folder whose authors are not trusted: nothing of the folder is run, so everything works.

import { readFileSync, writeFileSync } from 'node:fs';
import { afterAll, afterEach, beforeAll, inject, test } from 'vitest';
import './provided';
import { openWorkbench, patience, type Workbench } from './workbench';

let workbench: Workbench;
let before = '';

beforeAll(async () => {
  const host = inject('host');
  const settings = JSON.parse(readFileSync(host.settingsFile, 'utf8'));
  before = JSON.stringify(settings, null, 2);
  const withTrust = { ...settings, 'security.workspace.trust.enabled': true };
  writeFileSync(host.settingsFile, JSON.stringify(withTrust, null, 2));
  workbench = await openWorkbench(host, 'restricted');
  await workbench.load();
});

afterEach(({ task }) => workbench.pictureIfFailed(task));
afterAll(async () => {
  writeFileSync(inject('host').settingsFile, before);
  await workbench.close();
});

test('findings and panel are there in restricted mode', async () => {
  const { page } = workbench;
  await page.getByText("No, I don't trust the authors").click();
  await page.getByText('Restricted Mode').first().waitFor();
  await workbench.openFile('divided-clock.v');
  await page.locator('.squiggly-warning').first().waitFor({ timeout: patience.firstAnswer });
  await workbench.command('Foretick: Open Timing Preview');
  await workbench.mark();
  await workbench.picture('restricted');
});
