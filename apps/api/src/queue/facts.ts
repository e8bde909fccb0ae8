import type {
  cellKinds,
  certificateKinds,
  mechanisations,
  revisionStates,
  SetUp,
  SetUpCard,
  Weld,
  wpsStates,
} from '@tackboard/contract';
import type { StepRecord } from './store.js';

type CellKind = (typeof cellKinds)[number];

/** What the ready check and the set-up card of one queued step are decided from. */
export interface StepFacts {
  readonly record: StepRecord;
  readonly stepId: string;
  readonly jobReleased: boolean;
  readonly holdReason: string | null;
  /** How deep the part is traced: batch, piece or weld. */
  readonly traceability: string;
  readonly revisionId: string;
  readonly revisionState: (typeof revisionStates)[number];
  readonly cell: CellFacts;
  readonly step: {
    readonly startStopS: number;
    readonly airMovesS: number;
    readonly cleaningS: number;
    readonly loadS: number;
    readonly instructions: string;
    readonly holdPoint: boolean;
  };
  readonly setUp: SetUp | null;
  /** The newest first-piece check of the step with this cell, set-up and procedure. */
  readonly firstPiece: SetUpCard['firstPiece'];
  readonly holds: readonly HoldFacts[];
  /** The revision of the set-up's program as it is on file; null where the set-up names none. */
  readonly programOnFile: string | null;
  readonly wps: WpsFacts | null;
  readonly welds: readonly Weld[];
  readonly loads: readonly LoadFacts[];
  /** Whether the last change of the job left its settings outside the procedure. */
  readonly settingsOutside: boolean;
  /** Whether the robot was knocked and no check since was good. */
  readonly toolPointOpen: boolean;
  readonly overrides: readonly OverrideFacts[];
}

export interface CellFacts {
  readonly id: string;
  readonly code: string;
  readonly kind: CellKind;
  readonly mechanisation: (typeof mechanisations)[number];
  readonly stations: number;
  readonly gasLossFactor: number;
  readonly extraction: string;
}

type WpsFacts = NonNullable<SetUpCard['wps']> & {
  readonly code: string;
  readonly state: (typeof wpsStates)[number];
};

/** What is loaded at the cell now. */
export interface LoadFacts {
  readonly kind: string;
  readonly itemId: string;
  readonly itemName: string;
  readonly designation: string;
  readonly unit: string;
  readonly lotNumber: string;
  readonly certificate: string | null;
  readonly leftAmount: number;
}

/** What keeps a job from going on: quarantine, or a point after one of its steps that waits for the inspector. */
export interface HoldFacts {
  readonly kind: 'quarantine' | 'hold' | 'witness';
  readonly reason: string;
  /** The step after which the inspector is waited for; 0 for a whole job. */
  readonly stepNumber: number;
  /** When a witness point ends. */
  readonly dueAt: Date | null;
}

export interface OverrideFacts {
  readonly jobStepId: string | null;
  readonly rule: string;
  readonly signedBy: string;
  readonly forPersonId: string | null;
  readonly expiresAt: Date;
}

/** A certificate with the ranges printed on it. */
export interface CertificateFacts {
  readonly id: string;
  readonly personId: string;
  readonly personCode: string;
  readonly personName: string;
  readonly kind: (typeof certificateKinds)[number];
  readonly number: string;
  readonly code: string;
  readonly process: string;
  readonly cellId: string | null;
  readonly jointTypes: readonly string[];
  readonly positions: readonly string[];
  readonly materialGroups: readonly string[];
  readonly fillerGroups: readonly string[];
  readonly thicknessMinMm: number | null;
  readonly thicknessMaxMm: number | null;
  readonly testedOn: string;
  /** As printed; null where the way of renewal tells it. */
  readonly validUntil: string | null;
  readonly renewalRoute: string | null;
  readonly functionTestOn: string | null;
  readonly revokedOn: string | null;
  /** The latest six-monthly confirmation. */
  readonly confirmedOn: string | null;
}

export interface PersonFacts {
  readonly id: string;
  readonly code: string;
  readonly name: string;
}
