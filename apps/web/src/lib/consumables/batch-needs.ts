import { queue } from '@tackboard/contract';
import { call } from '$lib/api/call.js';
import type { BatchNeed, Load } from './marks.js';

/** What the batch in work, or else the next one, still takes at each cell where something is loaded. */
export async function batchNeeds(loads: readonly Load[]): Promise<BatchNeed[]> {
  const cellIds = [...new Set(loads.map(({ cellId }) => cellId))];
  const needs = await Promise.all(cellIds.map(needAt));
  return needs.filter((need) => need !== null);
}

async function needAt(cellId: string): Promise<BatchNeed | null> {
  const view = await call(queue.cell, { params: { cellId } });
  const card = view.held ?? view.next;
  if (card === null) return null;
  const { wireKgBatch, gasLBatch } = card.figures;
  return { cellId, jobNumber: card.step.jobNumber, wireKg: wireKgBatch, gasL: gasLBatch };
}
