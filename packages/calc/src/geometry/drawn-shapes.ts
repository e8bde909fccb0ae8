import type { FilletSection } from './fillet-section.js';
import type { Groove } from './groove.js';
import type { Polygon } from './polygon.js';

/**
 * A fillet with part A standing on B, lying on it, or meeting it at an outside corner, inner edge at inner edge; or a
 * groove between plates.
 */
export type DrawnJoint =
  | {
      form: 'tee' | 'lap' | 'corner';
      thicknessAMm: number;
      thicknessBMm: number;
      fillet: FilletSection;
    }
  | { form: 'groove'; groove: Groove };

export interface Laying {
  /** Area that one run lays at the dialled settings. */
  laidAreaMm2?: number | undefined;
  /** Runs that fill the weld; one where it is left out. */
  runs?: number | undefined;
}

export interface DrawnShape {
  /** `metal` is the drawn size, `laid` the outline of what the settings lay, `run` a line between two runs. */
  role: 'part' | 'preparation' | 'metal' | 'run' | 'laid' | 'throat';
  points: Polygon;
  closed: boolean;
}

/** Figures that stand beside the picture, from the same numbers; null where there are none. */
interface DrawnFigures {
  drawnAreaMm2: number;
  drawnThroatMm: number | null;
  drawnLegMm: number | null;
  laidAreaMm2: number | null;
  laidThroatMm: number | null;
  laidLegMm: number | null;
  /** How high the settings fill a groove from its root; null where they overfill it or for fillets. */
  laidFillMm: number | null;
}

export interface DrawnSection {
  shapes: DrawnShape[];
  figures: DrawnFigures;
}

export interface JointDrawing extends DrawnSection {
  /** What of the cross-section the picture shows, in mm; y points down. */
  view: { x: number; y: number; widthMm: number; heightMm: number };
}
