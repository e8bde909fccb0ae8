/** Level 2 applies where a contract names none. ISO 15614-1:2017; published by TWI and in national forewords. */
export function levelOf(text: string | null): '1' | '2' | null {
  if (text === null || text.trim() === '') return '2';
  const digit = text.trim().match(/^(?:LEVEL|STUFE|NIVEAU)?\s*([12])$/i)?.[1];
  return digit === '1' || digit === '2' ? digit : null;
}

/** A test to level 2 serves a demand for level 1, not the reverse. ISO 15614-1:2017; published by TWI. */
export function levelServes(levels: { tested: string | null; demanded: string | null }) {
  // What applies where a contract is silent says nothing about a record that is.
  const tested = levels.tested === null ? null : levelOf(levels.tested);
  const demanded = levelOf(levels.demanded);
  if (tested === null || demanded === null) return 'cannotSay' as const;
  return tested >= demanded ? ('inside' as const) : ('outside' as const);
}
