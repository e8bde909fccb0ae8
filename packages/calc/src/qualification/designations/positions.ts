/** ISO 6947 by US test or weld position; the vertical and fixed pipe positions need their progression. */
const groove: Readonly<Record<string, string>> = {
  '1G': 'PA',
  '2G': 'PC',
  '3G UP': 'PF',
  '3G DOWN': 'PG',
  '4G': 'PE',
  '5G UP': 'PH',
  '5G DOWN': 'PJ',
  '5G ORBITAL': 'PK',
  '6G UP': 'H-L045',
  '6G DOWN': 'J-L045',
};
const fillet: Readonly<Record<string, string>> = {
  '1F': 'PA',
  '2F': 'PB',
  '2FR': 'PB',
  '3F UP': 'PF',
  '3F DOWN': 'PG',
  '4F': 'PD',
  '5F UP': 'PH',
  '5F DOWN': 'PJ',
};

/**
 * The ISO 6947 position of a US one, for reading only: ranges are never carried over. Null where there is no twin
 * (6GR) or where the progression is missing (3G, 5G and 6G alone).
 */
export function isoPosition(position: string): string | null {
  const plain = position.trim().toUpperCase().replace(/\s+/g, ' ');
  return groove[plain] ?? fillet[plain] ?? null;
}

const weldLetters: Readonly<Record<string, 'F' | 'H' | 'V' | 'O'>> = {
  ...{ PA: 'F', PB: 'H', PC: 'H', PD: 'O', PE: 'O', PF: 'V' },
};

/**
 * The US letter of a weld's own position; null downward, where US tables ask for the progression, and for pipe. It
 * names the weld: a range never passes from one code to another by it.
 */
export function usWeldPosition(position: string): 'F' | 'H' | 'V' | 'O' | null {
  return weldLetters[position.trim().toUpperCase()] ?? null;
}
