import { noWpsDetails, type Wps, type WpsDetails } from '@tackboard/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestShop, type Agent, type TestShop } from '../support/app.js';
import { wpqrBody, wpsBody } from '../support/procedures.js';
import { readPdf } from '../support/read-pdf.js';
import { signedIn } from '../support/signed-in.js';

let shop: TestShop;
let qa: Agent;
let record: string;
let at = 0;

const vee: NonNullable<WpsDetails['groove']> = {
  thicknessMm: 10,
  depthMm: null,
  preparation: {
    ...{ kind: 'singleV', gapMm: 2, rootFaceMm: 1, angleDeg: 60, rootRadiusMm: 0 },
    ...{ capHeightMm: 1, backing: 'none' },
  },
};
const buttRanges = { ...wpsBody.ranges, jointTypes: ['butt', 'fillet'] };

beforeAll(async () => {
  shop = await startTestShop();
  qa = await signedIn(shop, 'qa');
  const answer = await qa.post('/api/wpqrs').send({
    ...{ ...wpqrBody, number: 'WPQR-D1', transfer: 'spray', ranges: buttRanges },
    testPiece: {
      ...{ ...wpqrBody.testPiece, jointType: 'butt', throatMm: null, thicknessMm: 10 },
      ...{ sides: 'one', backed: true, currentType: 'DC EP' },
    },
  });
  expect(answer.status, answer.body.message).toBe(200);
  record = answer.body.id;
});
afterAll(async () => shop.close());

async function write(changes: Partial<WpsDetails>, ranges = buttRanges) {
  at += 1;
  return qa.post('/api/wpss').send({
    ...{ ...wpsBody, number: `WPS-D${at}`, ranges, wpqrIds: [record] },
    details: { ...noWpsDetails, ...changes },
  });
}

describe('what a procedure states beside its ranges', () => {
  it('is kept, changed with what was before in the history, and taken into the next revision', async () => {
    const details = { groove: vee, currentKind: 'DC+', postHeatC: 250, postHeatMin: 120 } as const;
    const answer = await write(details);
    expect(answer.status, answer.body.message).toBe(200);
    const wps = answer.body as Wps;
    expect(wps.details).toEqual({ ...noWpsDetails, ...details });
    const changed = await qa.put(`/api/wpss/${wps.id}`).send({
      ...{ ...wpsBody, ranges: buttRanges, wpqrIds: [record], expectedVersion: 1 },
      details: { ...wps.details, cleaning: 'Ground bright' },
    });
    expect(changed.body.details.cleaning).toBe('Ground bright');
    const [last] = (await qa.get(`/api/history/wps/${wps.id}`)).body.entries;
    expect(last).toMatchObject({ type: 'wps.changed' });
    expect(JSON.stringify(last)).toContain('Ground bright');
    await shop.context.services.procedures.approve(shop.actor('coordinator'), wps.id, {
      expectedVersion: 2,
    });
    const next = await qa.post(`/api/wpss/${wps.id}/revise`).send({ changeNote: 'new gas' });
    expect(next.body.details).toEqual({ ...wps.details, cleaning: 'Ground bright' });
  });

  it('stands on its sheet, under the headings of ISO 15609-1, with the groove drawn', async () => {
    const details = { groove: vee, currentKind: 'DC+', postHeatC: 250, postHeatMin: 120 } as const;
    const answer = await write({ ...details, cleaning: 'Ground bright' });
    const path = `/api/wpss/${(answer.body as Wps).id}/sheet.pdf`;
    const { text, pages } = await readPdf((await qa.get(path)).body as Uint8Array);
    for (const words of ['Ground bright', 'DC+', '250 °C', '120 min', '60°', '10 mm'])
      expect(text).toContain(words);
    const plain = (await write({})).body as Wps;
    const without = await readPdf((await qa.get(`/api/wpss/${plain.id}/sheet.pdf`)).body);
    const drawn = (sheet: typeof without) => sheet.pages.reduce((sum, { paths }) => sum + paths, 0);
    expect(drawn({ text, pages })).toBeGreaterThan(drawn(without));
  });

  it('is none where nothing was sent, as on every procedure written before', async () => {
    const { details: _details, ...body } = wpsBody;
    const answer = await qa.post('/api/wpss').send({ ...body, number: 'WPS-OLD' });
    expect(answer.body.details).toEqual(noWpsDetails);
    const { id } = answer.body as Wps;
    await shop.context.uow.write(
      shop.actor('qa'),
      async ({ tx }) => tx.$executeRaw`UPDATE "Wps" SET "details" = NULL WHERE "id" = ${id}`,
    );
    expect((await qa.get(`/api/wpss/${id}`)).body.details).toEqual(noWpsDetails);
  });

  const refused: readonly {
    case: string;
    given: Partial<WpsDetails>;
    field: string;
    words: string;
  }[] = [
    {
      case: 'a root face thicker than the plate',
      given: { groove: { ...vee, preparation: { ...vee.preparation, rootFaceMm: 11 } } },
      field: 'body.details.groove.preparation.rootFaceMm',
      words: 'a root face of 11 does not go with a plate of 10 mm',
    },
    {
      case: 'a plate outside the range of thickness',
      given: { groove: { ...vee, thicknessMm: 20 } },
      field: 'body.details.groove.thicknessMm',
      words:
        'the drawn plate of 20 mm is outside the thickness range of this procedure, 3 to 12 mm',
    },
    {
      case: 'a woven stringer bead',
      given: { bead: 'stringer', weaveMaxMm: 12 },
      field: 'body.details.weaveMaxMm',
      words: 'stringer beads are not woven, and a weave of 12 mm is given',
    },
    {
      case: 'interpass at least above at most',
      given: { interpassMinC: 260 },
      field: 'body.details.interpassMinC',
      words: 'interpass at least 260 °C is above interpass at most 250 °C',
    },
    {
      case: 'a time of post-heating without a temperature',
      given: { postHeatMin: 120 },
      field: 'body.details.postHeatC',
      words: 'post-heating of 120 min has no temperature',
    },
    {
      case: 'a gas flow turned round',
      given: { gasFlowLMin: { min: 18, max: 12 } },
      field: 'body.details.gasFlowLMin',
      words: 'the lower limit must not be above the upper limit',
    },
  ];
  it.each(refused)(
    'refuses $case, with field, value and what is allowed',
    async ({ given, field, words }) => {
      const answer = await write(given);
      expect([answer.status, answer.body.code]).toEqual([400, 'INVALID']);
      expect(JSON.stringify(answer.body)).toContain(words);
      expect(answer.body.fields.map((one: { field: string }) => one.field)).toContain(field);
    },
  );

  it('refuses a groove on a fillet procedure', async () => {
    const answer = await write({ groove: vee }, wpsBody.ranges);
    expect(answer.body.message).toContain('a fillet weld has no groove preparation');
  });
});

describe('details that the code makes essential', () => {
  const comparisons = async (changes: Partial<WpsDetails>) =>
    ((await write(changes)).body as Wps).comparisons.map(({ variable, answer }) => [
      variable,
      answer,
    ]);

  it('say nothing while nothing is stated', async () => {
    expect(await comparisons({})).toEqual([]);
  });

  it('agree with the test: one side on backing, electrode at plus, spray arc', async () => {
    const groove = { ...vee, preparation: { ...vee.preparation, backing: 'ceramic' as const } };
    const same = { groove, sides: 'one', currentKind: 'DC+', transfer: 'spray' } as const;
    expect(await comparisons(same)).toEqual([
      ['backing', 'agrees'],
      ['currentType', 'agrees'],
      ['transfer', 'agrees'],
    ]);
  });

  it('ask where the root is open, the current turned round or the arc short', async () => {
    const answer = await write({
      ...{ groove: vee, sides: 'one', currentKind: 'DC-', transfer: 'short arc' },
    });
    const found = (answer.body as Wps).comparisons;
    expect(found.map(({ variable, answer: told }) => [variable, told])).toEqual([
      ['backing', 'ask'],
      ['currentType', 'ask'],
      ['transfer', 'ask'],
    ]);
    expect(found[0]?.words).toContain('here one side without backing, the rule gives');
    expect(found[2]?.words).toBe('here short arc, the rule gives globular, spray, pulsed');
    expect(found[0]).toMatchObject({ wpqrNumber: 'WPQR-D1', rule: 'ISO 15614-1:2017 8.4.3' });
  });

  it('the angle of the groove is no essential variable and is only shown', async () => {
    const wide = { ...vee, preparation: { ...vee.preparation, angleDeg: 90 } };
    expect(await comparisons({ groove: wide })).toEqual([]);
  });
});
