export { queueTimes, type PlannedTime, type WorkingWindow } from './queue-times.js';
export { loadByPeriod, type PeriodLoad } from './load.js';
