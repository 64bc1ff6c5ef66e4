// Tells how far the works have come: megabytes while fetching, then one sentence a stage.
import {byId} from "./screen.js";

const megabytes = (bytes) => (bytes / 1e6).toFixed(1);

const WORDS = {
  fetching: ({loaded, total}) => `Fetching the works: ${megabytes(loaded)} of ${megabytes(total)} MB.`,
  starting: () => "Starting the works.",
  failed: () => "The works could not be fetched. Check the connection, then reload this page.",
  working: ({words}) => `${words} …`,
  ready: () => "",
};

/** Show one stage of the worker's boot: {stage, loaded, total}. */
export function tellStage(stage) {
  byId("loading-words").textContent = WORDS[stage.stage](stage);
  byId("loading").hidden = stage.stage === "ready";
  if (stage.stage === "fetching") byId("loading-meter").value = stage.loaded / stage.total;
  if (stage.stage === "working") byId("loading-meter").value = stage.share;
}
