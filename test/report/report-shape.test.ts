// The published schema and the TypeScript types say the same. The compiler compares them (`npm run typecheck`); what it
// cannot see, the order of keys and the form of the schema, is compared here.
import { Ajv2020 } from 'ajv/dist/2020';
import { describe, expect, it } from 'vitest';
import type { FindingId } from '../../server/src/hazards/finding';
import type { Report } from '../../server/src/report/report';
import { type findingIds, reportShape } from '../../server/src/report/report-shape';
import { schemaOf } from '../../server/src/report/schema';
import type { ValueOf } from '../../server/src/report/shape';

type Same<Left, Right> = Left extends Right ? (Right extends Left ? true : never) : never;
const shapeIsReport: Same<ValueOf<typeof reportShape>, Report> = true;
const idsAreFindings: Same<(typeof findingIds)[number], FindingId> = true;

describe('the shape of the report', () => {
  it('is what the types say', () => {
    expect([shapeIsReport, idsAreFindings]).toEqual([true, true]);
  });

  it('is a valid schema of draft 2020-12', () => {
    const ajv = new Ajv2020({ strict: true });
    expect(ajv.validateSchema(schemaOf(reportShape, { open: true }))).toBe(true);
  });
});
