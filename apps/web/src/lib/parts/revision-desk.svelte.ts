import { parts, type Preparation, type Revision } from '@tackboard/contract';
import { untrack } from 'svelte';
import { Act } from '../api/act.svelte.js';
import { call } from '../api/call.js';
import { Resource } from '../live/resource.svelte.js';
import { shopUnits } from '../units/shop-units.svelte.js';
import { draftOfStep, nextStep, stepBodies, type StepDraft } from './step-draft.js';
import { draftOfWeld, nextWeld, readWeld, type WeldDraft } from './weld-draft.js';

/** One revision while it is written: the stored one, and beside it the weld list and the steps as typed. */
export class RevisionDesk {
  readonly resource: Resource<Revision>;
  readonly weldAct = new Act();
  readonly stepAct = new Act();
  readonly releaseAct = new Act();
  welds = $state<WeldDraft[]>([]);
  steps = $state<StepDraft[]>([]);
  changeNote = $state('');
  /** True once the weld list was sent with a gap: gaps are named from then on. */
  weldsAsked = $state(false);
  stepsAsked = $state(false);
  /** Counts how often the stored list took the place of the typed one: what is drawn of it begins anew then. */
  taken = $state(0);
  #version = $state(0);
  #weldPrint = $state('');
  #stepPrint = $state('');

  /** The unit in which the table stands; a change of the shop's units waits until it is stored or taken anew. */
  unit = $state.raw(shopUnits.fieldUnit('mm'));

  readonly readings = $derived(
    this.welds.map((draft) => ({ draft, reading: readWeld(draft, this.unit) })),
  );
  readonly weldsChanged = $derived(JSON.stringify(this.welds) !== this.#weldPrint);
  readonly stepsChanged = $derived(JSON.stringify(this.steps) !== this.#stepPrint);

  constructor(revisionId: () => string) {
    this.resource = new Resource(
      async () => call(parts.revision, { params: { revisionId: revisionId() } }),
      ['revision', 'step', 'setUp', 'part'],
    );
    $effect(() => {
      const stored = this.resource.data;
      if (stored !== null) untrack(() => this.#arrive(stored));
    });
  }

  addWeld(): void {
    const first = this.steps.find((step) => step.number !== null)?.number ?? undefined;
    this.welds.push(nextWeld(this.welds, first));
  }

  /** Takes over the preparation of the weld with this number. */
  prepare(number: number, preparation: Preparation | null): void {
    const draft = this.readings.find(
      ({ reading }) => reading.ok && reading.weld.number === number,
    )?.draft;
    if (draft !== undefined) draft.preparation = preparation;
  }

  removeWeld(row: number): void {
    this.welds = this.welds.filter((weld) => weld.row !== row);
  }

  addStep(): void {
    this.steps.push(nextStep(this.steps));
  }

  removeStep(row: number): void {
    this.steps = this.steps.filter((step) => step.row !== row);
  }

  async saveWelds(revision: Revision): Promise<boolean> {
    this.weldsAsked = true;
    const welds = this.readings.flatMap(({ reading }) => (reading.ok ? [reading.weld] : []));
    if (welds.length < this.welds.length) return false;
    const body = { expectedVersion: this.#version, welds };
    const saved = await this.weldAct.send(parts.setWelds, {
      params: { revisionId: revision.id },
      body,
    });
    if (saved === null) return this.#refused();
    this.takeWelds(saved);
    return true;
  }

  async saveSteps(revision: Revision): Promise<boolean> {
    this.stepsAsked = true;
    const steps = stepBodies(this.steps);
    if (steps === null) return false;
    const body = { expectedVersion: this.#version, steps };
    const saved = await this.stepAct.send(parts.setSteps, {
      params: { revisionId: revision.id },
      body,
    });
    if (saved === null) return this.#refused();
    this.takeSteps(saved);
    return true;
  }

  async release(revision: Revision): Promise<boolean> {
    const saved = await this.releaseAct.send(parts.releaseRevision, {
      params: { revisionId: revision.id },
      body: { expectedVersion: this.#version, changeNote: this.changeNote },
    });
    if (saved === null) return this.#refused();
    this.#store(saved);
    return true;
  }

  draftsOf(stored: Revision): WeldDraft[] {
    return stored.welds.map((weld, row) => draftOfWeld(weld, row, this.unit));
  }

  /** Puts the stored weld list in place of the typed one. */
  takeWelds(stored: Revision): void {
    this.unit = shopUnits.fieldUnit('mm');
    this.welds = this.draftsOf(stored);
    this.taken += 1;
    this.#weldPrint = JSON.stringify(this.welds);
    this.weldsAsked = false;
    this.weldAct.clear();
    this.#store(stored);
  }

  /** Puts the stored steps in place of the typed ones. */
  takeSteps(stored: Revision): void {
    this.steps = stored.steps.map(draftOfStep);
    this.#stepPrint = JSON.stringify(this.steps);
    this.stepsAsked = false;
    this.stepAct.clear();
    this.#store(stored);
  }

  /** What was typed is meant to replace what somebody else stored meanwhile. */
  keepTyped(stored: Revision): void {
    this.weldAct.clear();
    this.stepAct.clear();
    this.releaseAct.clear();
    this.#store(stored);
  }

  /** What arrives replaces only what nobody is typing at; otherwise the typed stays and the version tells. */
  #arrive(stored: Revision): void {
    if (this.#version === stored.version) return;
    const fresh = this.#version === 0;
    if (!fresh && (this.weldsChanged || this.stepsChanged)) return;
    this.takeWelds(stored);
    this.takeSteps(stored);
  }

  async #refused(): Promise<false> {
    await this.resource.reload();
    return false;
  }

  #store(stored: Revision): void {
    this.#version = stored.version;
    this.resource.data = stored;
  }
}
