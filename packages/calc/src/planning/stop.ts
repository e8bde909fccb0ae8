/** Asked between slices of the search; the search ends with its best order when it answers true. */
export type ShouldStop = () => boolean;

/** Stops after a number of slices: the same seed and the same number give the same order on every machine. */
export function stopAfterSlices(slices: number): ShouldStop {
  let left = slices;
  return () => {
    left -= 1;
    return left < 0;
  };
}
