/**
 * The most steps of a lane that keep their order from today's lane to the proposed one (a longest increasing
 * sequence of today's places), so that a proposal names as few moves as it can.
 */
export function stayingSteps(today: readonly number[], proposed: readonly number[]): Set<number> {
  const placeOf = new Map(today.map((step, place) => [step, place]));
  const candidates = proposed.filter((step) => placeOf.has(step));
  const length: number[] = [];
  const previous: number[] = [];
  let last = -1;
  candidates.forEach((step, at) => {
    length[at] = 1;
    previous[at] = -1;
    for (let earlier = 0; earlier < at; earlier += 1) {
      const grows = placeOf.get(candidates[earlier]!)! < placeOf.get(step)!;
      if (grows && length[earlier]! >= length[at]) {
        length[at] = length[earlier]! + 1;
        previous[at] = earlier;
      }
    }
    if (last < 0 || length[at] > length[last]!) last = at;
  });
  const staying = new Set<number>();
  for (let at = last; at >= 0; at = previous[at]!) staying.add(candidates[at]!);
  return staying;
}
