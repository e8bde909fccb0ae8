import type { ReadyLine } from '@tackboard/contract';
import type { StepFacts } from './facts.js';
import { loadedOf } from './figures.js';

type Line = Pick<ReadyLine, 'rule' | 'strength' | 'text'>;
type ConsumableFacts = Pick<StepFacts, 'setUp' | 'wps' | 'cell' | 'loads' | 'traceability'> & {
  readonly record: Pick<StepFacts['record'], 'coded'>;
};

/** Wire and gas on the cell against the kept set-up and the procedure, and the certificate of the filler. */
export function consumableLines(facts: ConsumableFacts): Line[] {
  const { setUp, wps } = facts;
  const asked = [
    ['wire', setUp?.wireItemId ?? null, setUp?.wireName ?? null, wps?.ranges.fillers ?? []],
    ['gas', setUp?.gasItemId ?? null, setUp?.gasName ?? null, wps?.ranges.gases ?? []],
  ] as const;
  return [
    ...asked.flatMap(([kind, itemId, name, listed]) =>
      loadedLines(facts, kind, { itemId, name, listed }),
    ),
    ...certificateLines(facts),
  ];
}

function loadedLines(
  facts: ConsumableFacts,
  kind: 'wire' | 'gas',
  asked: { itemId: string | null; name: string | null; listed: readonly string[] },
): Line[] {
  const rule = `${kind}Loaded`;
  const { code } = facts.cell;
  const loaded = loadedOf(facts, kind);
  if (loaded === null) {
    if (asked.itemId === null) return [];
    const text = `${asked.name} is needed, and no ${kind} is recorded as loaded at ${code}: load a lot.`;
    return [{ rule, strength: 'gate', text }];
  }
  const found = `${loaded.itemName}, lot ${loaded.lotNumber}, is loaded at ${code}`;
  if (asked.itemId !== null && loaded.itemId !== asked.itemId) {
    return [{ rule, strength: 'gate', text: `${found}, but the set-up asks for ${asked.name}.` }];
  }
  const plain = (text: string) => text.trim().toUpperCase();
  if (asked.listed.length > 0 && !asked.listed.map(plain).includes(plain(loaded.designation))) {
    const text = `${found}; ${loaded.designation} is not among ${asked.listed.join(', ')} of the procedure.`;
    return [{ rule, strength: 'gate', text }];
  }
  return [{ rule, strength: 'pass', text: `${found}.` }];
}

/**
 * A filler without a certificate on file is told for general work, and gated where the part is coded or traced by
 * piece or weld. Gas is left out: its cylinder carries the mark of ISO 14175, and a paper for it is by agreement.
 */
function certificateLines(facts: ConsumableFacts): Line[] {
  const rule = 'wireCertificate';
  const loaded = loadedOf(facts, 'wire');
  if (loaded === null || (loaded.certificate ?? '').trim() !== '') return [];
  const lot = `Lot ${loaded.lotNumber} of ${loaded.itemName} at ${facts.cell.code} has no certificate on file`;
  const { traceability, record } = facts;
  if (!record.coded && traceability === 'batch') {
    return [{ rule, strength: 'tell', text: `${lot}.` }];
  }
  const why = record.coded ? 'the part is coded' : `the part is traced by ${traceability}`;
  const text = `${lot}, and ${why}: load a lot with a certificate.`;
  return [{ rule, strength: 'gate', text }];
}
