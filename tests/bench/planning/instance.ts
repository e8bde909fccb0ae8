import type { PlanProblem } from '@tackboard/calc';

/** One instance as it stands in a file; times are minutes or any other unit, the same throughout. */
export interface Instance {
  name: string;
  machines: number;
  jobs: {
    id: string;
    release: number;
    due: number;
    weight: number;
    processing: (number | null)[];
  }[];
  /** Per machine: row 0 before the first job, row i + 1 after job i. Absent is zero. */
  setup?: number[][][];
}

export function problemOf(instance: Instance): PlanProblem {
  return {
    cells: Array.from({ length: instance.machines }, (_, at) => ({
      id: `machine ${at + 1}`,
      freeFromMin: 0,
    })),
    steps: instance.jobs.map((job) => ({
      id: job.id,
      customer: job.id,
      weight: job.weight,
      dueMin: job.due,
      releaseMin: job.release,
      processingMin: job.processing,
    })),
    ...(instance.setup ? { setupMin: instance.setup } : {}),
  };
}
