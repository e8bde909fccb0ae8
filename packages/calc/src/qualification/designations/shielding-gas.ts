/** Share of a component in per cent: above `over`, up to and including `upTo`. */
interface Share {
  over: number;
  upTo: number;
}
interface Mixture {
  symbol: string;
  co2: Share | null;
  o2: Share | null;
}

const co2 = {
  low: { over: 0.5, upTo: 5 },
  mid: { over: 5, upTo: 15 },
  high: { over: 15, upTo: 25 },
  rich: { over: 25, upTo: 50 },
} as const;
const o2 = {
  low: { over: 0.5, upTo: 3 },
  mid: { over: 3, upTo: 10 },
  high: { over: 10, upTo: 15 },
} as const;

/** ISO 14175:2008; argon makes up the balance. */
const mixtures: readonly Mixture[] = [
  { symbol: 'M12', co2: co2.low, o2: null },
  { symbol: 'M13', co2: null, o2: o2.low },
  { symbol: 'M14', co2: co2.low, o2: o2.low },
  { symbol: 'M20', co2: co2.mid, o2: null },
  { symbol: 'M21', co2: co2.high, o2: null },
  { symbol: 'M22', co2: null, o2: o2.mid },
  { symbol: 'M23', co2: co2.low, o2: o2.mid },
  { symbol: 'M24', co2: co2.mid, o2: o2.low },
  { symbol: 'M25', co2: co2.mid, o2: o2.mid },
  { symbol: 'M26', co2: co2.high, o2: o2.low },
  { symbol: 'M27', co2: co2.high, o2: o2.mid },
  { symbol: 'M31', co2: co2.rich, o2: null },
  { symbol: 'M32', co2: null, o2: o2.high },
  { symbol: 'M33', co2: co2.rich, o2: { over: 2, upTo: 10 } },
  { symbol: 'M34', co2: { over: 5, upTo: 25 }, o2: o2.high },
  { symbol: 'M35', co2: co2.rich, o2: o2.high },
];

const holds = (share: Share | null, pct: number) =>
  share === null ? pct === 0 : pct > share.over && pct <= share.upTo;

export interface GasMixture {
  co2Pct: number;
  o2Pct: number;
  h2Pct: number;
  hePct: number;
  n2Pct: number;
}

function activeSymbol({ co2Pct, o2Pct }: GasMixture): string {
  if (co2Pct === 100) return 'C1';
  if (o2Pct === 100) return 'O1';
  if (co2Pct + o2Pct === 100) return o2Pct > 0.5 && o2Pct <= 30 ? 'C2' : 'Z';
  return mixtures.find((each) => holds(each.co2, co2Pct) && holds(each.o2, o2Pct))?.symbol ?? 'Z';
}

function inertSymbol(hePct: number): string {
  if (hePct === 0) return 'I1';
  if (hePct === 100) return 'I2';
  return hePct >= 0.5 && hePct <= 95 ? 'I3' : 'Z';
}

/**
 * Symbol of a shielding gas from its composition in volume per cent, balance argon: ISO 14175:2008. Under the edition
 * of 1997 M21 began above 5 % CO2, so an old M21 with 5 to 15 % is M20 today. Z for a mixture no symbol names; null
 * for shares that are none or for nitrogen, which is not on file here.
 */
export function shieldingGasSymbol(mixture: GasMixture): string | null {
  const { co2Pct, o2Pct, h2Pct, hePct, n2Pct } = mixture;
  const shares = [co2Pct, o2Pct, h2Pct, hePct, n2Pct];
  const total = shares.reduce((sum, each) => sum + each, 0);
  if (shares.some((each) => !Number.isFinite(each) || each < 0) || total > 100 + 1e-9) return null;
  if (n2Pct > 0) return null;
  if (h2Pct > 0) {
    if (co2Pct > 0.5 && co2Pct <= 5 && o2Pct === 0 && h2Pct > 0.5 && h2Pct <= 5) return 'M11';
    if (co2Pct > 0 || o2Pct > 0) return 'Z';
    if (h2Pct < 0.5 || h2Pct > 50) return 'Z';
    return h2Pct <= 15 ? 'R1' : 'R2';
  }
  return co2Pct === 0 && o2Pct === 0 ? inertSymbol(hePct) : activeSymbol(mixture);
}
