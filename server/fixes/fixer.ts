import type { Plan } from "../plan/plan";
import { checkPlan } from "../rules/check";
import type { Finding } from "../rules/finding";
import type { Ground } from "../rules/ground";
import type { Fix } from "./fix";
import { fixesFor } from "./fixes-for";

/**
 * Proposes fixes for the findings of one file. What is found in the file as it stands is worked out once, when
 * the first fix is asked for, since every proposal is measured against it.
 */
export class Fixer {
  private before: readonly Finding[] | undefined;

  constructor(
    private readonly plan: Plan,
    private readonly ground: Ground,
  ) {}

  fixesFor(finding: Finding): readonly Fix[] {
    this.before ??= checkPlan(this.plan, this.ground.around);
    const { piece, span } = finding.place;
    const target = this.before.find(
      (each) =>
        each.code === finding.code &&
        each.place.piece === piece &&
        each.place.span.start === span.start &&
        each.standing === finding.standing,
    );
    return target === undefined ? [] : fixesFor(target, this.plan, this.ground, this.before);
  }
}
