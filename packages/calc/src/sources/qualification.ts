import type { Source } from './source.js';

/**
 * `memory` marks tables that were not seen as text. The other entries name the open text that confirms a row; the
 * standard itself always decides.
 */
export const qualificationSources = {
  iso15614y2017: {
    title: 'ISO 15614-1, range tables of level 2, from memory',
    edition: '2017 with A1:2019',
    kind: 'memory',
  },
  iso15614y2004: {
    title: 'ISO 15614-1, range tables, from memory',
    edition: '2004 with A1:2008 and A2:2012',
    kind: 'memory',
  },
  iso15614Article: {
    title:
      'bck.vn, essential variables of ISO 15614-1: clause map, notes on material groups, combined processes',
    edition: '2017',
    kind: 'practice',
  },
  iso15614Pairs: {
    title: 'ped-online.com, ISO 15614-1 range of qualification for steels: pairs of groups',
    edition: null,
    kind: 'practice',
  },
  iso15614Heat: {
    title:
      'soudeurs.com, threads 26982 and 10280: heat input and positions under ISO 15614-1 level 2',
    edition: null,
    kind: 'practice',
  },
  asmeQw451: {
    title: 'ASME BPVC Section IX, tables QW-451 and QW-255',
    edition: '2017',
    kind: 'standard',
  },
  asmeQw424: {
    title: 'ASME BPVC Section IX, QW-423 and QW-424',
    edition: '2023',
    kind: 'standard',
  },
  asmeMemory: {
    title: 'ASME BPVC Section IX, variables QW-400 and QW-350, from memory',
    edition: '2017',
    kind: 'memory',
  },
  asmeFillet: {
    title: 'mewelding.com, fillet welds under QW-202.2(c), QW-451.3 and QW-452.6',
    edition: null,
    kind: 'practice',
  },
  asmeHeat: {
    title: 'ASME BPVC Section IX, QW-409.1: heat input not above the tested maximum',
    edition: '2017',
    kind: 'standard',
  },
  asmeDiameter: {
    title: 'TWI, range for pipe diameters in ASME IX: QW-211 and QW-452.3',
    edition: null,
    kind: 'handbook',
  },
  asmeQw452: {
    title: 'ASME BPVC Section IX, QW-452.1(b) and QW-461.9',
    edition: '2010',
    kind: 'standard',
  },
  asmeContinuity: {
    title: 'American Welding Society forum, topic 3710, quoting QW-322: six months or more',
    edition: null,
    kind: 'practice',
  },
  awsEssential: {
    title: 'AWS D1.1, table 4.5 (2015) and 6.5 (2020): changes that need a new test',
    edition: '2015',
    kind: 'standard',
  },
  awsMemory: {
    title: 'AWS D1.1, tables 6.1, 6.2 and 6.5, from memory',
    edition: '2020',
    kind: 'memory',
  },
  awsWelders: {
    title: 'AWS D1.1, tables 6.10, 6.11 and 10.13: positions and thickness of welders',
    edition: '2020',
    kind: 'standard',
  },
  awsContinuity: {
    title: 'AWS official interpretation D1.1-06-I08b; D1.1, period of effectiveness',
    edition: '2015',
    kind: 'standard',
  },
  iso9606Examples: {
    title: 'German worked designation examples to DIN EN ISO 9606-1',
    edition: '2013',
    kind: 'practice',
  },
  iso9606Guide: {
    title: 'German one-page guides with the tables of ISO 9606-1',
    edition: '2013',
    kind: 'practice',
  },
  iso9606Memory: {
    title: 'ISO 9606-1, clause 5 and its tables, from memory',
    edition: '2012',
    kind: 'memory',
  },
  iso9606Weld: {
    title: 'TWI Job Knowledge 130, EN 287-1 and ISO 9606-1 compared',
    edition: null,
    kind: 'handbook',
  },
  iso9606Validity: {
    title: 'ISO 9606-1, clause 9: confirmation and the three ways of renewal',
    edition: '2012',
    kind: 'standard',
  },
  iso14732Page: {
    title: 'DEKRA Sweden, ISO 14732: variables, validity and methods',
    edition: '2013',
    kind: 'practice',
  },
  iso14732Memory: {
    title: 'ISO 14732, clause 4, from memory',
    edition: '2013',
    kind: 'memory',
  },
} as const satisfies Record<string, Source>;
