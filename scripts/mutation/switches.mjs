/** What the changed code asks at each of its switches; its names are those that the instrumenter writes. */
const state = (globalThis.__stryker__ = {});

/** The code without its counting of which changes are met, which takes most of the time of a search. */
export function withoutCounting(text) {
  return text.replaceAll(/stryCov_9fa48\((?:"\d+"(?:, )?)+\)/g, '0');
}

/** Counts into a fresh sheet which changes are met: while loading, and by each test. */
export function countAnew() {
  state.activeMutant = undefined;
  state.mutantCoverage = { static: {}, perTest: {} };
  state.currentTestId = undefined;
  return state.mutantCoverage;
}

/** What is met from now on is met by this test. */
export function countFor(test) {
  state.currentTestId = String(test);
}

/** Switches one change on; a loop that passes it more often than the limit ends in an error. */
export function switchOn(id, limit) {
  Object.assign(state, { activeMutant: id, hitCount: 0, hitLimit: limit });
}
