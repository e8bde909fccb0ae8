import type { PartDetail, Revision, Weld } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';

const stateWords = {
  draft: m.part_state_draft,
  released: m.part_state_released,
  superseded: m.part_state_superseded,
} as const satisfies Record<Revision['state'], () => string>;

const stateTones = {
  draft: 'tell',
  released: 'good',
  superseded: 'plain',
} as const satisfies Record<Revision['state'], string>;

export function revisionMark(state: Revision['state']) {
  return { word: stateWords[state](), tone: stateTones[state] };
}

const jointWords = {
  fillet: m.part_joint_fillet,
  butt: m.part_joint_butt,
  corner: m.part_joint_corner,
  lap: m.part_joint_lap,
  plug: m.part_joint_plug,
} as const satisfies Record<Weld['jointType'], () => string>;

export function jointWord(joint: string): string {
  return Object.hasOwn(jointWords, joint) ? jointWords[joint as Weld['jointType']]() : joint;
}

const traceWords = {
  batch: m.part_trace_batch,
  piece: m.part_trace_piece,
  weld: m.part_trace_weld,
} as const satisfies Record<PartDetail['traceability'], () => string>;

export function traceWord(traceability: PartDetail['traceability']): string {
  return traceWords[traceability]();
}

const returnWords = {
  no: m.part_return_no,
  maybe: m.part_return_maybe,
  yes: m.part_return_yes,
} as const satisfies Record<PartDetail['returnChance'], () => string>;

export function returnWord(chance: PartDetail['returnChance']): string {
  return returnWords[chance]();
}

type Condition = 'good' | 'repair' | 'missing';

const conditionWords = {
  good: m.fixture_good,
  repair: m.fixture_repair,
  missing: m.fixture_missing,
} as const satisfies Record<Condition, () => string>;

const conditionTones = {
  good: 'good',
  repair: 'tell',
  missing: 'stop',
} as const satisfies Record<Condition, string>;

export function conditionMark(condition: Condition) {
  return { word: conditionWords[condition](), tone: conditionTones[condition] };
}
