export type {
  CellRole,
  PersonAnswer,
  PersonCell,
  PersonCertificate,
  PersonFacts,
  PersonLine,
  PersonReason,
  PersonVariable,
  PersonWeld,
} from './facts.js';
export { fitCertificate, fitPerson } from './fit-person.js';
