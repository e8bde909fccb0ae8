export { queueTimes, type PlannedTime, type WorkingWindow } from './queue-times.js';
