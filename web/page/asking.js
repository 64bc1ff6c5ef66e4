// Asks the worker. Every question has an id and gets one answer or one problem.

const PATIENCE_MS = 20_000; // a step takes milliseconds: longer silence means it hangs
const BOOT_PATIENCE_MS = 90_000; // silence while booting, on a slow phone

const waiting = new Map(); // id -> {resolve, reject, patience}
let worker = null;
let lastId = 0;
let lastSign = 0;
let lastStage = "";
let onStage = () => {};
let config = null;

/** Start the worker; `tell` hears {stage, loaded, total, detail}. */
export function start(bootConfig, tell) {
  config = bootConfig;
  onStage = tell;
  launch();
  setInterval(watch, 1000);
}

/** Return a promise of the worker's answer, waited for so long; it rejects with {kind, ...}. */
export function ask(verb, args = {}, patience = PATIENCE_MS) {
  const id = ++lastId;
  if (waiting.size === 0) lastSign = performance.now();
  return new Promise((resolve, reject) => {
    waiting.set(id, {resolve, reject, patience});
    worker.postMessage({id, verb, args});
  });
}

/** End the worker, start a new one, and turn every open question into a problem. */
export function restart(reason) {
  worker.terminate();
  launch();
  const open = [...waiting.values()];
  waiting.clear();
  for (const {reject} of open) reject({kind: "restarted", detail: reason});
}

function launch() {
  lastStage = "";
  lastSign = performance.now();
  worker = new Worker(`${config.app}/worker.js`, {type: "module"});
  worker.onmessage = ({data}) => hear(data);
  worker.onerror = (event) => hear({stage: "failed", detail: event.message ?? "the worker did not load"});
  worker.postMessage({boot: config});
}

function hear(data) {
  lastSign = performance.now();
  if (data.learned) {
    onStage({stage: "learned", family: data.learned});
    return;
  }
  if (data.working) {
    onStage({stage: "working", ...data.working});
    return;
  }
  if (data.stage) {
    const isOver = lastStage === "ready" || lastStage === "failed";
    if (isOver) return; // counts of bytes may trail behind
    lastStage = data.stage;
    onStage(data);
    return;
  }
  const question = waiting.get(data.id);
  if (!question) return;
  waiting.delete(data.id);
  if (data.problem) question.reject(data.problem);
  else question.resolve(data.answer);
}

function watch() {
  const silence = performance.now() - lastSign;
  const patience = Math.max(...[...waiting.values()].map((each) => each.patience));
  if (waiting.size && silence > (lastStage === "ready" ? patience : BOOT_PATIENCE_MS)) {
    restart(`no answer for ${Math.round(silence / 1000)} seconds`);
  }
}
