// The manifest keeps its promises: what it contributes exists, is told in words, and is registered by the code.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { limitDefaults } from '../../server/src/budget';
import { builtInDelaySets } from '../../server/src/delays/built-in-sets';
import { publishedSchemas } from '../../server/src/report/published-schemas';

const root = fileURLToPath(new URL('../..', import.meta.url));
const manifest = JSON.parse(readFileSync(`${root}package.json`, 'utf8'));
const { commands, configuration, grammars, jsonValidation, languages, menus, walkthroughs } = manifest.contributes;
const steps: readonly Step[] = walkthroughs.flatMap(
  (walkthrough: { readonly steps: readonly Step[] }) => walkthrough.steps,
);
const settings: Readonly<Record<string, Setting>> = configuration.properties;
const sources = readdirSync(`${root}client/src`)
  .map((file) => readFileSync(`${root}client/src/${file}`, 'utf8'))
  .join('\n');
const commandNames: readonly string[] = commands.map(({ command }: { readonly command: string }) => command);

interface Setting {
  readonly type: string;
  readonly default: unknown;
  readonly markdownDescription: string;
  readonly enum?: readonly string[];
  readonly markdownEnumDescriptions?: readonly string[];
  readonly properties?: Readonly<Record<string, Setting>>;
}

interface Step {
  readonly description: string;
  readonly media: { readonly markdown: string };
  readonly completionEvents?: readonly string[];
}

describe('commands', () => {
  it('are each registered once, and no others', () => {
    const registered = [...sources.matchAll(/registerCommand\('([\w.]+)'/g)].map(([, name]) => name);
    expect([...registered].sort()).toEqual([...commandNames].sort());
  });

  it('stand in one category and wake the extension', () => {
    for (const { category, command, title } of commands) {
      expect(category).toBe('Foretick');
      expect(title).toMatch(/^[A-Z]/);
      expect(manifest.activationEvents).toContain(`onCommand:${command}`);
    }
  });

  it('are what menus name', () => {
    const named = Object.values(menus as Record<string, readonly { readonly command: string }[]>).flat();
    for (const { command } of named) expect(commandNames).toContain(command);
  });
});

describe('activation', () => {
  it('is explicit, and nothing else wakes the extension', () => {
    expect([...manifest.activationEvents].sort()).toEqual(
      [
        ...languages.map(({ id }: { readonly id: string }) => `onLanguage:${id}`),
        ...commandNames.map((name) => `onCommand:${name}`),
        'onWebviewPanel:foretick.preview',
      ].sort(),
    );
  });

  it('needs no trust: nothing of the workspace is run', () => {
    expect(manifest.capabilities.untrustedWorkspaces).toEqual({ supported: true });
  });
});

describe('settings', () => {
  it.each(Object.entries(settings))('%s is told in Markdown and has a default of its type', (name, setting) => {
    expect(name).toMatch(/^foretick\.[a-z.]+$/);
    expect(setting.markdownDescription).toMatch(/\.$/);
    expect(typeof setting.default).toBe(setting.type);
    if (setting.enum !== undefined) {
      expect(setting.enum).toContain(setting.default);
      expect(setting.markdownEnumDescriptions).toHaveLength(setting.enum.length);
    }
  });

  it('are the ones that people are told of', () => {
    expect(Object.keys(settings)).toEqual([
      'foretick.delays',
      'foretick.start',
      'foretick.hints.clock',
      'foretick.hints.ratio',
      'foretick.hints.stage',
      'foretick.diagnostics.harmless',
      'foretick.limits',
    ]);
  });

  it('offer every limit with its default, in the order of server/src/budget.ts', () => {
    const limits = settings['foretick.limits'].properties ?? {};
    expect(Object.entries(limits).map(([name, limit]) => [name, limit.default])).toEqual(Object.entries(limitDefaults));
    for (const limit of Object.values(limits)) expect(limit.markdownDescription).toMatch(/\.$/);
  });

  it('name every delay set that comes with the tool', () => {
    for (const { name } of builtInDelaySets) {
      expect(settings['foretick.delays'].markdownDescription).toContain(`\`${name}\``);
    }
  });
});

describe('files', () => {
  it('that the manifest names are there', () => {
    const named = [
      ...languages.map(({ configuration: file }: { readonly configuration: string }) => file),
      ...grammars.map(({ path }: { readonly path: string }) => path),
      ...steps.map(({ media }) => media.markdown),
    ];
    expect(named.filter((file) => !existsSync(`${root}${file}`))).toEqual([]);
  });

  it('give each grammar the scope and each language the endings that it has', () => {
    for (const { language, path, scopeName } of grammars) {
      expect(JSON.parse(readFileSync(`${root}${path}`, 'utf8')).scopeName).toBe(scopeName);
      expect(languages.map(({ id }: { readonly id: string }) => id)).toContain(language);
    }
    expect(languages.map(({ extensions }: { readonly extensions: readonly string[] }) => extensions)).toEqual([
      ['.v', '.vh'],
      ['.sv', '.svh'],
    ]);
  });

  it('validate foretick.json by a schema that the build writes', () => {
    const [{ fileMatch, url }] = jsonValidation;
    expect(fileMatch).toBe('foretick.json');
    expect(Object.keys(publishedSchemas()).map((file) => `./dist/${file}`)).toContain(url);
  });
});

describe('the walkthrough', () => {
  it('links to commands that exist, with arguments that are JSON', () => {
    for (const { description } of steps) {
      for (const [, name, query] of description.matchAll(/\(command:([\w.]+)(?:\?([^)]*))?\)/g)) {
        if (name.startsWith('foretick.')) expect(commandNames).toContain(name);
        expect(() => JSON.parse(decodeURIComponent(query ?? '[]'))).not.toThrow();
      }
    }
  });

  it('opens an example that is bundled', () => {
    const [, query] = /command:foretick\.openExample\?([^)]*)/.exec(steps[0].description) ?? [];
    const [example] = JSON.parse(decodeURIComponent(query));
    expect(readdirSync(`${root}examples`)).toContain(example);
  });

  it('ticks its steps off by what happens', () => {
    const events = steps.flatMap(({ completionEvents }) => completionEvents ?? []);
    for (const event of events) {
      const [kind, name] = event.split(':');
      if (kind === 'onCommand') expect(commandNames).toContain(name);
      else if (kind === 'onSettingChanged') expect(Object.keys(settings)).toContain(name);
      else expect(sources.includes(`'setContext', '${name}'`), event).toBe(true);
    }
  });
});
