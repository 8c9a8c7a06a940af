// episode.ts: what the server tells of an episode: its questions, takes and target lengths. Knows no element.
import type { WithErrors } from "./server";

export interface Segment {
  number: number;
  question: string;
  /** What stands on top of its card: the short title, where the sheet has one. */
  on_top: string;
  viewer: string;
  start: string;
  short_answer: string;
  headline: string;
  verdict: string;
  reason: string;
  steps: string[];
  caution: string;
  /** What further calculators say of it. */
  more: { calculator: string; title: string; headline: string; verdict: string; reason: string; inputs: Record<string, string> }[];
  referred: string;
  seconds: number;
  calculator: string;
  inputs: Record<string, string>;
  address: string;
  wrong: string;
  /** What was said beside it in the presenter's own words, as the sheet has it. */
  spoken: string;
  /** The mark of what this row shows: nothing else is taken down. */
  shown: string;
  taken_down: boolean;
  /** Whether what was taken down is not what is shown now. */
  differs: boolean;
}

/** One recording; marks are moments in seconds since 1970, "0" its beginning. */
export interface Take {
  id: number;
  ended: number | null;
  rehearsal: boolean;
  /** When its sync frame was shown; null where none was. */
  sync: number | null;
  marks: Record<string, number>;
}

export interface Listed {
  number: number;
  title: string;
  recorded: string;
  mistakes: string[];
}

export interface Run extends WithErrors {
  episodes: Listed[];
  number: number;
  title: string;
  segments: Segment[];
  mistakes: string[];
  takes: Take[];
  /** Those thrown away that can be brought back. */
  thrown: Take[];
  targets: Record<string, number>;
  /** How long after the recording the video begins, and what was cut out, as the sheet has them. */
  lead: string;
  cuts: string[];
  changes: number; // of two replies the one with more is the newer
}

/** The take that is being recorded. */
export const running = (takes: Take[]): Take | undefined => takes.find((take) => take.ended === null);

export const began = (take: Take): number | undefined => take.marks["0"];
