// Says in plain words what broke, and keeps the details for copying.
import {byId} from "./screen.js";

let details = "";

/** Show a problem; `about` is added to the details. */
export function showTrouble(problem, about) {
  const detail = problem.detail ?? String(problem.stack ?? problem);
  details = `Dryjoint ${document.documentElement.dataset.version}\n${navigator.userAgent}\n${detail}\n${about}`;
  byId("trouble-words").textContent = problem.kind === "restarted"
    ? `The works stopped (${detail}) and were started afresh.`
    : "The last step could not be worked out, and was not taken.";
  byId("trouble").hidden = false;
}

export function hideTrouble() {
  byId("trouble").hidden = true;
}

/** Return what there is to copy. */
export function troubleDetails() {
  return details;
}
