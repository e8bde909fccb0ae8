import { it } from 'vitest';
import { writeFileSync, mkdirSync } from 'node:fs';
import { startTestShop } from '../support/app.js';
import { robotShop } from '../support/robot-shop.js';
import { readPdf } from '../support/read-pdf.js';
it('x', async () => {
  const shop = await startTestShop();
  const robot = await robotShop(shop);
  const job = await robot.job({setUp:{watchOuts:["O'Neil <b> says: tack z1 first, żółć Ää"]}});
  const agent = await shop.as('welder');
  const {wpss} = (await agent.get('/api/wpss')).body;
  const {wpqrs} = (await agent.get('/api/wpqrs')).body;
  const rev = (await agent.get('/api/revisions/'+job.revisionId)).body;
  mkdirSync('/tmp/wt-sheets-out',{recursive:true});
  for (const [n,p] of [['wps',`/api/wpss/${wpss[0].id}/sheet.pdf`],['wpqr',`/api/wpqrs/${wpqrs[0].id}/sheet.pdf`],['cert',`/api/people/${robot.operator.id}/certificates.pdf`],['trav',`/api/jobs/${job.id}/traveler.pdf`],['setup',`/api/revisions/${rev.id}/set-ups/${rev.steps[0].setUps[0].id}/sheet.pdf`]] as const) {
    const t=Date.now();
    const a = await agent.get(p);
    console.log(n, a.status, a.headers['content-type'], a.headers['content-disposition'], Buffer.isBuffer(a.body)? a.body.length : a.text, Date.now()-t);
    if(a.status===200){ writeFileSync(`/tmp/wt-sheets-out/${n}.pdf`, a.body); const r = await readPdf(a.body); console.log(r.pages.length, r.pages.map(p=>p.paths), r.text.slice(0,1800)); }
  }
  await shop.close();
});
