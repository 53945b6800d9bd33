// The two schemas that the package publishes beside its code: of the report, and of `foretick.json`. The build writes them
// as files; a test validates real reports and project files with them.

import { limitDefaults } from '../budget';
import { findingFacts } from './finding-facts';
import { projectShape } from './project-shape';
import { reportShape } from './report-shape';
import { draft, type JsonSchema, schemaOf } from './schema';

/** File name → schema. */
export function publishedSchemas(): Readonly<Record<string, JsonSchema>> {
  return { 'report.schema.json': reportSchema(), 'project.schema.json': projectSchema() };
}

/** The keys of a finding's `facts` depend on its `id`: one condition per id. */
function reportSchema(): JsonSchema {
  const { properties, ...rest } = schemaOf(reportShape, { open: true }) as { properties: Record<string, JsonSchema> };
  const findings = properties.findings as { readonly items: JsonSchema };
  const conditions = Object.entries(findingFacts).map(([id, facts]) => ({
    if: { properties: { id: { const: id } }, required: ['id'] },
    then: { properties: { facts: schemaOf(facts, { open: true }) } },
  }));
  return {
    $schema: draft,
    $id: 'urn:foretick:report',
    title: 'A report of Foretick',
    ...rest,
    properties: { ...properties, findings: { ...findings, items: { ...findings.items, allOf: conditions } } },
  };
}

/** Every limit with its default, so that an editor shows it. */
function projectSchema(): JsonSchema {
  const { properties, ...rest } = schemaOf(projectShape, { open: false }) as { properties: Record<string, JsonSchema> };
  const limits = properties.limits as { readonly properties: Readonly<Record<string, JsonSchema>> };
  const withDefaults = Object.entries(limits.properties).map(([name, schema]) => [
    name,
    { ...schema, default: limitDefaults[name as keyof typeof limitDefaults] },
  ]);
  return {
    $schema: draft,
    $id: 'urn:foretick:project',
    title: 'A project file of Foretick (foretick.json)',
    ...rest,
    properties: { ...properties, limits: { ...limits, properties: Object.fromEntries(withDefaults) } },
  };
}
