import type {
  Assignment,
  clearances,
  Clearer,
  Displacement,
  Job,
  OrderCheck,
  PlannedTime,
} from '@tackboard/contract';
import { plainNumber } from '$lib/format/number.js';
import { duration } from '$lib/format/time.js';
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
  fit: m.order_topic_fit,
  torch: m.order_topic_torch,
  hours: m.order_topic_hours,
  start: m.order_topic_start,
} as const satisfies Record<Assignment['topic'], () => string>;

export function topicWord(topic: Assignment['topic']): string {
  return topicWords[topic]();
}

export type Clearance = (typeof clearances)[number];

/** What a note stops is for the cell to say; the order desk shows whether it is clear. */
export function clearanceOfNote(state: Note['state']): Clearance {
  if (state === 'ok') return 'clear';
  return state === 'cannotSay' ? 'cannotSay' : 'notClear';
}

export function clearanceMark(clearance: Clearance) {
  return {
    clear: { tone: 'good', word: m.order_clear() },
    notClear: { tone: 'stop', word: m.order_not_clear() },
    cannotSay: { tone: 'unknown', word: m.order_cannot_say() },
  }[clearance] as { tone: 'good' | 'stop' | 'unknown'; word: string };
}

const clearerWords = {
  office: m.people_role_office,
  welder: m.people_role_welder,
  qa: m.people_role_qa,
  manager: m.people_role_manager,
  coordinator: m.order_role_coordinator,
} as const satisfies Record<Clearer, () => string>;

export function clearerText(clearer: Clearer): string {
  return m.order_cleared_by({ role: clearerWords[clearer]() });
}

/** Planned minutes with what they rest on. */
export function timeText(time: PlannedTime): string {
  const planned = duration(time.plannedMin);
  if (time.basis === 'typed') return m.order_time_typed({ planned });
  if (time.basis === 'calculation') return m.order_time_calculated({ planned });
  return time.lowMin === null || time.highMin === null
    ? m.order_time_runs({ planned, runs: time.runs })
    : m.order_time_band({
        planned,
        runs: time.runs,
        low: duration(time.lowMin),
        high: duration(time.highMin),
      });
}

const minPerDay = 1440;

export function spareText(spareMin: number): string {
  const days = plainNumber(Math.abs(spareMin) / minPerDay, 1);
  return spareMin >= 0 ? m.order_spare({ days }) : m.order_past({ days });
}

export function displacementText(displaced: Displacement): string {
  const { customerName: customer, jobNumbers, laterMin, lateJobNumbers } = displaced;
  const later = m.order_later({
    customer,
    jobs: jobNumbers.join(', '),
    later: duration(laterMin),
  });
  return lateJobNumbers.length === 0
    ? later
    : `${later}; ${m.order_later_late({ jobs: lateJobNumbers.join(', ') })}`;
}

const fieldWords: Readonly<Record<string, () => string>> = {
  customerId: m.order_customer,
  customerOrder: m.order_customer_order,
  partId: m.order_part,
  orderedRevision: m.order_revision,
  quantity: m.order_quantity,
  dueOn: m.order_due,
  pastDueReason: m.order_past_due_reason,
  quantityConfirmed: m.order_quantity_confirm_label,
  partConfirmed: m.order_part_confirm_label,
  ...{ work: m.outside_work, toWhom: m.outside_to, sentOn: m.outside_sent_on },
  ...{ dueBackOn: m.outside_due_on, backOn: m.outside_back_on, note: m.outside_note },
  certificate: m.outside_certificate,
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
