export { wpsBreaches } from './wps-breaches.js';
export type { BreachVariable, Stated, SupportingWpqr, WpsBreach } from './wps-breaches.js';
