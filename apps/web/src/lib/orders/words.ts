import type { Job, OrderCheck } from '@tackboard/contract';
import { m } from '$lib/paraglide/messages.js';

const jobWords = {
  waiting: m.order_job_waiting,
  running: m.order_job_running,
  done: m.order_job_done,
  closedShort: m.order_job_short,
  cancelled: m.order_job_cancelled,
} as const satisfies Record<Job['state'], () => string>;

const jobTones = {
  waiting: 'plain',
  running: 'active',
  done: 'good',
  closedShort: 'tell',
  cancelled: 'stop',
} as const satisfies Record<Job['state'], string>;

export function jobMark(state: Job['state']) {
  return { word: jobWords[state](), tone: jobTones[state] };
}

type StepState = Job['steps'][number]['state'];

const stepWords = {
  blocked: m.order_step_blocked,
  waiting: m.order_step_waiting,
  held: m.order_step_held,
  done: m.order_step_done,
  cancelled: m.order_step_cancelled,
} as const satisfies Record<StepState, () => string>;

const stepTones = {
  blocked: 'plain',
  waiting: 'plain',
  held: 'active',
  done: 'good',
  cancelled: 'stop',
} as const satisfies Record<StepState, string>;

export function stepMark(state: StepState) {
  return { word: stepWords[state](), tone: stepTones[state] };
}

type Note = OrderCheck['notes'][number];

const topicWords = {
  revision: m.order_topic_revision,
  procedure: m.order_topic_procedure,
  fixture: m.order_topic_fixture,
  program: m.order_topic_program,
  wire: m.order_topic_wire,
  gas: m.order_topic_gas,
  people: m.order_topic_people,
  cell: m.order_topic_cell,
} as const satisfies Record<Note['topic'], () => string>;

export function topicWord(topic: Note['topic']): string {
  return topicWords[topic]();
}

export const noteTone = {
  ok: 'good',
  check: 'tell',
  stop: 'stop',
} as const satisfies Record<Note['state'], string>;

const fieldWords: Readonly<Record<string, () => string>> = {
  customerId: m.order_customer,
  customerOrder: m.order_customer_order,
  partId: m.order_part,
  orderedRevision: m.order_revision,
  quantity: m.order_quantity,
  dueOn: m.order_due,
  pastDueReason: m.order_past_due_reason,
  quantityConfirmed: m.order_quantity_confirm_label,
  reason: m.order_reason,
  changeNote: m.order_change_note,
};

/** The label of a refused field; lines are counted from 1. */
export function fieldLabel(field: string): string {
  const parts = field.replace(/^body\./, '').split('.');
  const [name = ''] = parts.slice(-1);
  const word = fieldWords[name]?.() ?? name;
  return parts[0] === 'lines' && parts.length > 2
    ? m.order_line_field({ line: Number(parts[1]) + 1, field: word })
    : word;
}
