import { tidying } from "../../server/launch-tidying";
import { checkTexts } from "../server/check-texts";
import { answering } from "./answering";
import { practiceText } from "./practice-text";
import { ONE_PLAN, studioOf } from "./studio";

/**
 * A process that reads, unrolls and checks one plan whenever it is told to, with nothing kept from before and the
 * engine set up as the language server sets it up.
 */

const text = practiceText(studioOf(ONE_PLAN));
tidying();
answering(() => checkTexts(new Map([["plan.practice", text]])));
