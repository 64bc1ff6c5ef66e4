// The person's own words on the screen of symptoms: what was typed is looked at before it is left.
import {byId} from "./screen.js";

const ELSEWHERE = '[data-view*=\'"screen"\'], [data-act="write-owner"]';

/** Whether pressing `at` would leave words behind that nobody has looked for in the list yet. */
export function leavesWords(at, inputs) {
  const typed = squeezed(byId("words")?.value);
  const lookedAt = inputs.findLast((input) => input.do === "message")?.text;
  return typed !== "" && at.matches(ELSEWHERE) && typed !== squeezed(lookedAt);
}

/** Look for the words in the list, as the button beside them does. */
export function lookAtWords() {
  byId("own-words").requestSubmit();
}

function squeezed(text = "") {
  return text.replace(/\s+/g, " ").trim();
}
