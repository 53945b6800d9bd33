// A person in front of the editor: a browser page with the workbench open on a folder, and what hands and eyes do there.
// Waits for what is seen, never for an amount of time. Of the extension it knows the panel's frame and version mark.

import { cpSync } from 'node:fs';
import path from 'node:path';
import { chromium, type FrameLocator, type Locator, type Page } from 'playwright-core';
import type { Host } from './host.mjs';

interface FinishedTask {
  readonly name: string;
  readonly result?: { readonly state: string } | undefined;
}

/** Milliseconds after which something that should be seen counts as missing. */
export const patience = { workbench: 90_000, firstAnswer: 60_000, step: 30_000, palette: 3_000 };

export interface Workbench {
  readonly page: Page;
  /** What the page complained of, as it came. */
  readonly complaints: readonly string[];
  /** Opens, or opens again, the workbench on the folder. */
  load(): Promise<void>;
  /** Runs a command by its whole title in the palette. */
  command(title: string): Promise<void>;
  /** Leaves the palette open with a command in it. */
  findCommand(title: string): Promise<void>;
  openFile(name: string): Promise<void>;
  /** Gives the focus to the text of an open file. */
  toText(name: string): Promise<void>;
  /** Types over a whole line of the text that has the focus; lines count from one. */
  replaceLine(line: number, text: string): Promise<void>;
  /** What a line shows, hints included: the first that holds `part`. */
  lineText(part: string): Promise<string>;
  /** The rows of the list of problems. */
  problems(): Promise<readonly string[]>;
  /** Puts the caret there and the focus into the text; both count from one. */
  goTo(line: number, column?: number): Promise<void>;
  /** What the editor shows about the caret's place. */
  hoverText(): Promise<string>;
  /** Chooses a color theme by its name. */
  theme(name: string): Promise<void>;
  /** The document of the extension's panel: two frames down. */
  panel(): FrameLocator;
  /** The version mark of what the panel has drawn. */
  mark(): Promise<string>;
  /** Waits until the panel has drawn another version than `old`, and gives its mark. */
  markAfter(old: string): Promise<string>;
  picture(name: string): Promise<void>;
  /** What was on the screen when a test failed. */
  pictureIfFailed(task: FinishedTask): Promise<void>;
  close(): Promise<void>;
}

/** On a copy of the examples that no other test file opens: what one leaves unsaved would greet the next. */
export async function openWorkbench(
  { browser: address, examples, folders, pictures, url }: Host,
  name: string,
): Promise<Workbench> {
  const folder = path.join(folders, name);
  cpSync(examples, folder, { recursive: true });
  const browser = await chromium.connect(address);
  const page = await browser.newPage({ viewport: { width: 1500, height: 950 } });
  page.setDefaultTimeout(patience.step);
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  const quickInput = page.locator('.quick-input-widget .quick-input-box input.input');
  const panel = () => page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');

  const commandRow = (title: string) => page.locator('.quick-input-list .monaco-list-row', { hasText: title }).first();

  /** An extension's commands stand there only once the workbench has read the extension: the palette is asked anew. */
  async function findCommand(title: string): Promise<void> {
    const row = commandRow(title);
    for (const deadline = Date.now() + patience.workbench; Date.now() < deadline; await page.keyboard.press('Escape')) {
      await page.keyboard.press('F1');
      await quickInput.waitFor();
      await page.keyboard.type(title);
      const found = await row.waitFor({ timeout: patience.palette }).then(
        () => true,
        () => false,
      );
      if (found) return;
    }
    throw new Error(`the palette has no ${title}`);
  }

  async function command(title: string): Promise<void> {
    await findCommand(title);
    await commandRow(title).click();
  }

  /** What the extension shows in the text takes the focus for a moment, which closes a palette: it is opened anew. */
  async function goTo(line: number, column = 1): Promise<void> {
    const place = `:${line}:${column}`;
    for (const deadline = Date.now() + patience.step; Date.now() < deadline; ) {
      await page.keyboard.press('F1');
      const filled = await quickInput.fill(place, { timeout: patience.palette }).then(
        () => true,
        () => false,
      );
      if (!filled || (await quickInput.inputValue().catch(() => '')) !== place) continue;
      await page.keyboard.press('Enter');
      await quickInput.waitFor({ state: 'hidden' });
      return;
    }
    throw new Error(`cannot go to line ${line}`);
  }

  async function picture(name: string): Promise<void> {
    await page.screenshot({ path: path.join(pictures, `${name}.png`) });
  }

  async function markOf(body: Locator): Promise<string> {
    await body.waitFor({ timeout: patience.firstAnswer });
    return (await body.getAttribute('data-mark')) ?? '';
  }

  return {
    page,
    complaints,
    async load() {
      await page.goto(`${url}?${new URLSearchParams({ folder })}`, { waitUntil: 'domcontentloaded' });
      await page.locator('.monaco-workbench').waitFor({ timeout: patience.workbench });
      await page.locator('.explorer-folders-view .monaco-list-row').first().waitFor({ timeout: patience.workbench });
    },
    command,
    findCommand,
    async openFile(name) {
      await page.locator('.explorer-folders-view .monaco-list-row', { hasText: name }).dblclick();
      await page.locator('.tab', { hasText: name }).first().waitFor();
    },
    async toText(name) {
      await page.locator('.tab', { hasText: name }).first().click();
    },
    goTo,
    async replaceLine(line, text) {
      await goTo(line);
      await page.keyboard.press('Home');
      await page.keyboard.press('Shift+End');
      await page.keyboard.insertText(text);
    },
    async lineText(part) {
      const shown = await page.locator('.view-line', { hasText: part }).first().textContent();
      // The editor draws blanks that do not break.
      return (shown ?? '').replaceAll('\u00a0', ' ');
    },
    async problems() {
      await command('Problems: Focus on Problems View');
      const panel = page.locator('.markers-panel');
      await panel.waitFor();
      const rows = await panel.locator('.monaco-list-row').allTextContents();
      return rows.map((row) => row.replaceAll('\u00a0', ' ').trim());
    },
    async hoverText() {
      await page.keyboard.press('Control+K');
      await page.keyboard.press('Control+I');
      const card = page.locator('.monaco-hover:not(.hidden) .hover-contents');
      await card.first().waitFor();
      return (await card.allTextContents()).join('\n');
    },
    async theme(name) {
      await command('Preferences: Color Theme');
      await quickInput.fill(name);
      await page.locator('.quick-input-list .monaco-list-row', { hasText: name }).first().click();
      await quickInput.waitFor({ state: 'hidden' });
    },
    panel,
    mark: () => markOf(panel().locator('body[data-mark]')),
    markAfter: (old) => markOf(panel().locator(`body[data-mark]:not([data-mark="${old}"])`)),
    picture,
    async pictureIfFailed({ name, result }) {
      if (result?.state === 'fail') await picture(`failed-${name.replaceAll(/\W+/g, '-')}`);
    },
    close: () => browser.close(),
  };
}
