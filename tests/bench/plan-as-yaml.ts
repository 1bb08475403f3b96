import { answering } from "./answering";
import { ONE_PLAN, studioOf } from "./studio";
import { YamlReference } from "./yaml-reference";
import { YAML_SCHEMA, yamlText } from "./yaml-text";

/** A process that validates the same plan as YAML whenever it is told to, with the engine as it is. */

const text = yamlText(studioOf(ONE_PLAN));
const reference = new YamlReference(YAML_SCHEMA);
answering(() => reference.soundly(text));
