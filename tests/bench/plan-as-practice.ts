import { checkTexts } from "../server/check-texts";
import { answering } from "./answering";
import { practiceText } from "./practice-text";
import { ONE_PLAN, studioOf } from "./studio";

/** A process that reads, unrolls and checks one plan whenever it is told to, with nothing kept from before. */

const text = practiceText(studioOf(ONE_PLAN));
answering(() => checkTexts(new Map([["plan.practice", text]])));
