/** A studio as data: what both writers, of `.practice` text and of YAML, put down. */
export interface StudioModel {
  readonly name: string;
  readonly areas: readonly string[];
  readonly exercises: readonly ModelExercise[];
  readonly levels: readonly ModelLevel[];
  readonly students: readonly ModelStudent[];
  readonly terms: readonly ModelTerm[];
}

export type NoteValue = "1/1" | "1/2" | "1/4" | "1/8";

/** Notes of one value under one slur, or tongued. */
export interface NoteGroup {
  readonly value: NoteValue;
  /** Pitches, degrees or partials, as the exercise has it. */
  readonly notes: readonly string[];
  readonly slurred: boolean;
  readonly breath: boolean;
}

export interface ModelExercise {
  readonly name: string;
  readonly area: string;
  /** Absent for partials. */
  readonly key: string | undefined;
  readonly beat: "1/2" | "1/4";
  readonly bpm: number;
  readonly aim: string;
  readonly way: "music" | "degrees" | "partials";
  /** The note of degree 1. */
  readonly from: string;
  /** How far up it can be carried within everybody's range. */
  readonly carries: "fourth" | "octave";
  readonly bars: readonly (readonly NoteGroup[])[];
  /** Seconds. */
  readonly rest: number;
}

export interface ModelLevel {
  readonly name: string;
  readonly stage: "senior" | "college";
  readonly keys: readonly string[];
}

export interface ModelStudent {
  readonly name: string;
  readonly level: string;
  readonly limit: readonly [string, string];
}

export interface ModelTerm {
  readonly name: string;
  readonly students: readonly string[];
  readonly from: string;
  readonly to: string;
  readonly lesson: string;
  readonly concert: string;
  readonly blocks: readonly ModelBlock[];
}

export interface ModelBlock {
  readonly weeks: readonly [number, number];
  readonly sessions: readonly ModelSession[];
}

export interface ModelSession {
  readonly days: readonly string[];
  readonly name: string;
  readonly minutes: number;
  readonly assignments: readonly ModelAssignment[];
}

export interface ModelAssignment {
  readonly exercise: string;
  readonly travel: ModelTravel | undefined;
  readonly tempo:
    | { readonly way: "growth" | "choice"; readonly from: number; readonly to: number }
    | undefined;
  readonly amount:
    | { readonly kind: "times"; readonly from: number; readonly to: number }
    | { readonly kind: "minutes"; readonly from: number; readonly to: number };
}

/** Where an assignment goes: one key, every key of a list, a walk, or the valve combinations. */
export type ModelTravel =
  | { readonly kind: "in"; readonly key: string }
  | { readonly kind: "all"; readonly keys: readonly string[] }
  | {
      readonly kind: "walk";
      readonly from: string;
      readonly to: string;
      readonly step: string;
      readonly pacing: "onward" | "when passed";
    }
  | { readonly kind: "valves"; readonly all: boolean; readonly from: string; readonly to: string };
