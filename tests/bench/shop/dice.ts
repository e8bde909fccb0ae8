/** Repeatable choices (mulberry32): the same seed makes the same shop. */
export function dice(seed: number) {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  const whole = (from: number, to: number) => from + Math.floor(next() * (to - from + 1));
  return {
    whole,
    chance: (share: number) => next() < share,
    of: <T>(list: readonly T[]): T => {
      const found = list[whole(0, list.length - 1)];
      if (found === undefined) throw new Error('There is nothing to choose from.');
      return found;
    },
    /** An id that sorts by its time, as the service's own do (RFC 9562, version 7). */
    id: (at: Date): string => {
      const time = at.getTime().toString(16).padStart(12, '0');
      const hex = (digits: number) =>
        Math.floor(next() * 16 ** digits)
          .toString(16)
          .padStart(digits, '0');
      return `${time.slice(0, 8)}-${time.slice(8)}-7${hex(3)}-8${hex(3)}-${hex(12)}`;
    },
  };
}

export type Dice = ReturnType<typeof dice>;
