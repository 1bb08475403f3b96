import { tidying } from "../../server/launch-tidying";
import { checkTexts } from "../server/check-texts";
import { answering } from "./answering";
import { practiceText } from "./practice-text";
import { ONE_PLAN, studioOf } from "./studio";

/**
 * A process that reads, unrolls and checks one plan whenever it is told to, with nothing kept from before and the
 * engine set up as the language server sets it up. It does so seven times in a row, which takes about as long as one
 * validation of the YAML: what else the machine has to do then falls on both alike.
 */

const text = practiceText(studioOf(ONE_PLAN));
const tidy = tidying();
answering(28, () => {
  checkTexts(new Map([["plan.practice", text]]));
  tidy();
});
