// The page: turns presses into inputs of the case and asks Python for <main>.
// Python writes what a button means: data-input goes into the case, data-view changes only what is
// shown, data-act is done here, data-focus tells where the focus goes.
import {ask, restart, start} from "./asking.js";
import {forget, keep, kept} from "./cases.js";
import {download, localTime, nextTheme, showTheme} from "./device.js";
import {beginKeys, keysActs} from "./keys.js";
import {kitActs, lastKit, rememberKit} from "./kit.js";
import {letterActs} from "./letters.js";
import {openLink, whenLinked} from "./links.js";
import {tellStage} from "./loading.js";
import {keepKind, offlineActs, prepareOffline, showOffline} from "./offline.js";
import {severalActs} from "./several.js";
import {afterRepaint, applyFilter, byId, fillParts, morph, say} from "./screen.js";
import {walkActs} from "./walk.js";
import {hideTrouble, showTrouble, troubleDetails} from "./trouble.js";

const LATER_PARTS = ["check", "map", "timeline", "kit", "record"];
const TYPING_PAUSE_MS = 120;
const PAUSE_MS = 400; // nobody has made the next check by then; who only clicks through is not held up
const root = document.documentElement;

let current = null; // {id, log: {format, family, inputs}, undone}
let view = {screen: "home"};
let pressed = 0; // time of the press being answered, for the measure
let shown = 0; // counts what was painted, so that late answers can be dropped
let queue = Promise.resolve(); // one step at a time
let typing = 0; // timer that runs out when typing pauses
let changeOver = () => {};

/** Return a copy of the case on screen, for tests and for the curious. */
export function caseOnScreen() {
  return structuredClone(current);
}

export {ask, restart};

function enqueue(step) {
  queue = queue.then(step).catch(stumble);
  return queue;
}

function stumble(problem) {
  if (problem.kind === "refused") say(problem.words, true);
  else showTrouble(problem, JSON.stringify(current?.log));
}

// ---- from a press to a step

document.addEventListener("click", (event) => {
  const at = event.target.closest("[data-input], [data-view], [data-act]");
  if (!at || at.matches("form, input[type=checkbox]") || at.disabled) return;
  pressed = event.timeStamp;
  const {act} = at.dataset;
  enqueue(() => (act ? ACTS[act](at.dataset) : step(at.dataset)));
});

document.addEventListener("submit", (event) => {
  event.preventDefault();
  clearTimeout(typing);
  pressed = event.timeStamp;
  const {dataset} = event.target;
  const fields = Object.fromEntries(new FormData(event.target));
  if (document.activeElement.id === "reading") document.activeElement.blur(); // else the number would stay for the next check
  enqueue(() => step(dataset, fields));
});

document.addEventListener("change", ({target, timeStamp}) => {
  pressed = timeStamp;
  if (target.dataset.on) {
    const input = target.checked ? target.dataset.on : target.dataset.off;
    enqueue(() => step({input}));
  }
  if (target.dataset.submit !== undefined) target.form.requestSubmit();
  if (target.files?.length) enqueue(() => openFiles(target));
});

document.addEventListener("input", ({target}) => {
  if (target.id === "reading") lookAheadOf(target.value);
  if (target.id === "words") view.words = target.value; // else ticking something would lose it
  if (target.id === "lines") view.lines = target.value;
  if (!target.dataset.filter) return;
  view.filter = target.value;
  applyFilter(view.filter);
});

/** Carry out what a button or form says; `fields` are what was typed. */
async function step({input, view: wanted, focus}, fields = {}) {
  const nextView = {...view, ...(wanted ? JSON.parse(wanted) : {})};
  if (!input) return show({...nextView, ...fields}, focus);
  return put({...JSON.parse(input), ...fields}, nextView, focus);
}

/** Put an input into the case, and show it. */
async function put(input, nextView, focus) {
  const next = {...input, at: localTime()};
  if (next.do === "start") return begin(next.family, [], nextView);
  if (next.do === "settle") return begin(next.family, current.log.inputs, nextView);
  const log = {...current.log, inputs: [...current.log.inputs, next]};
  const reply = await ask("show", {log, view: nextView});
  if (reply.accepted) current = {...current, log, undone: []};
  paint(reply, reply.accepted ? nextView : view, reply.focus ?? focus);
  if (!reply.accepted) return;
  rememberKit(log.inputs);
  await save();
}

async function begin(family, inputs, nextView) {
  const begun = {id: crypto.randomUUID(), log: {format: 1, family, inputs}, undone: []};
  const first = {...nextView, check: null, cause: null, block: null, area: "", filter: "", words: ""};
  const reply = await ask("show", {log: begun.log, view: first});
  current = begun; // not before: a case that cannot be shown replaces none
  paint(reply, first, "title");
  await save();
}

async function save() {
  const isSafe = await keep({...current, changed: localTime(), used: Date.now()});
  if (!isSafe) say("This browser does not let the page keep the case: save it as a file before you leave.", true);
}

// ---- from an answer to the screen

async function show(nextView, focus) {
  const records = nextView.screen === "home" ? await summaries() : [];
  const own = nextView.screen === "own" ? (await authors()).ownFiles() : undefined;
  const reply = await ask("show", {log: current?.log ?? null, view: {...nextView, kept: records}, own});
  paint(reply, nextView, focus);
}

async function summaries() {
  const records = await kept();
  return records.map(({id, log, changed}) => ({id, changed, family: log.family, steps: log.inputs.length}));
}

function paint(reply, nextView, focus) {
  view = nextView;
  morph(byId("main"), reply.html);
  applyFilter(view.filter);
  byId("undo").disabled = !current?.log.inputs.length;
  byId("redo").disabled = !current?.undone.length;
  hideTrouble();
  say(reply.status, !reply.accepted);
  if (focus) byId(focus)?.focus();
  const turn = ++shown;
  root.dataset.shown = String(turn);
  afterRepaint(pressed, () => fillLater(turn).catch(stumble));
  pressed = 0;
}

/** Show another screen for a while; the case, the view and what fills itself stay as they are. */
function still(reply, focus) {
  shown += 1;
  morph(byId("main"), reply.html);
  byId(focus)?.focus({preventScroll: true});
  scrollTo(0, 0);
  document.querySelector(".pointed")?.scrollIntoView();
  say(reply.status);
}

/** Once the answer is on screen, ask for what may come a moment later. */
async function fillLater(turn) {
  for (const part of current ? LATER_PARTS : []) {
    if (turn !== shown) return;
    const {parts} = await ask("later", {log: current.log, view: {...view, last_kit: lastKit()}, part});
    if (turn === shown) fillParts(parts);
  }
  if (view.screen === "own") await (await authors()).check();
  if (turn !== shown) return;
  root.dataset.settled = String(turn);
  await lookAhead(turn);
}

/** While the person makes the check, let the worker work out what each answer would give. */
async function lookAhead(turn) {
  await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
  let more = current !== null && view.screen === "bench";
  for (let answer = 0; more && turn === shown; answer += 1) {
    ({more} = await ask("foresee", {log: current.log, view, answer}));
  }
  if (turn === shown) root.dataset.foreseen = String(turn);
}

/** Once typing pauses, let the worker work out what the number in the field would give. */
function lookAheadOf(said) {
  clearTimeout(typing);
  const foresee = () => ask("foresee", {log: current.log, view, answer: 0, said}).catch(stumble);
  typing = setTimeout(foresee, TYPING_PAUSE_MS);
}

// ---- acts that are no input of the case

// What the acts of other files may use of this one.
const desk = {ask, begin, copy, enqueue, openKept, paint, put, still, repaint: () => show(view), save, say, show, current: () => current, view: () => view};

const ACTS = {
  ...keysActs(),
  ...kitActs(desk),
  ...severalActs(desk),
  ...letterActs(desk),
  ...walkActs(desk),
  undo: () => travel(current.log.inputs.at(-1), current.log.inputs.slice(0, -1), (last) => [...current.undone, last]),
  redo: () => travel(current.undone.at(-1), [...current.log.inputs, current.undone.at(-1)], () => current.undone.slice(0, -1)),
  demo: async () => {
    const {log, view: wanted} = await ask("demo");
    return begin(log.family, log.inputs, {...view, ...wanted});
  },
  "open-case": ({id}) => openKept(id, {screen: "bench"}),
  "forget-case": async ({id}) => {
    if (!confirm("Delete this case from this browser? It cannot be brought back.")) return;
    await forget(id);
    if (current?.id === id) current = null;
    return show({screen: "home"}, "title");
  },
  "save-file": () => download(`dryjoint-${localTime().slice(0, 10)}.json`, JSON.stringify(current.log, null, 1)),
  copy: async () => {
    const {text} = await ask("summary", {log: current.log});
    return copy(text, "The summary is on the clipboard.");
  },
  own: async (dataset) => (await authors()).act(dataset),
  details: () => copy(troubleDetails(), "The details are on the clipboard."),
  print: () => window.print(),
  theme: () => showTheme(nextTheme()),
  update: () => changeOver(),
  ...offlineActs,
  restart: () => {
    restart("asked for by hand");
    return show(view, "title");
  },
};

async function copy(text, done) {
  await navigator.clipboard.writeText(text);
  say(done, true);
}

async function travel(moved, inputs, undoneAfter) {
  if (!moved) return;
  current = {...current, log: {...current.log, inputs}, undone: undoneAfter(moved)};
  await show({...view, check: null});
  return save();
}

async function openKept(id, nextView) {
  current = strip((await kept()).find((record) => record.id === id));
  return show(nextView, "title");
}

/** Return the desk for authors, which is fetched when it is first needed. */
async function authors() {
  const desk = await import("./authors.js");
  desk.begin({
    enqueue,
    repaint: () => show(view),
    begin: (family) => begin(family, [], {...view, screen: "symptoms"}),
  });
  return desk;
}

async function openFiles({id, files}) {
  if (id === "own-picker") return (await authors()).openFiles(files);
  const {log} = await ask("opened", {text: await files[0].text()});
  return begin(log.family, log.inputs, {...view, screen: "bench"});
}

// ---- start

function hearStage(stage) {
  if (stage.stage === "learned") return keepKind(stage.family);
  tellStage(stage);
  if (stage.stage === "failed") showTrouble({detail: stage.detail}, "while starting");
  if (stage.stage !== "ready") return;
  root.dataset.ready = "true";
  prepareOffline(tellOffline).catch((error) => tellOffline({offline: `Not ready offline: ${error.message}`}));
}

function tellOffline({update, ...told}) {
  showOffline(told);
  if (!update) return;
  changeOver = update;
  byId("news").hidden = false;
}

function strip({id, log, undone}) {
  return {id, log, undone};
}

/** Go on with the case used last, if there is one. */
async function resume() {
  const [last] = await kept();
  if (!last) return;
  current = strip(last);
  return show({screen: last.log.inputs.length ? "bench" : "symptoms"});
}

showTheme();
beginKeys();
const url = (place) => new URL(place, document.baseURI).href;
start({runtime: url(root.dataset.runtime), app: url(root.dataset.app), workshop: url(root.dataset.workshop), families: url(root.dataset.families), bytes: Number(root.dataset.bytes)}, hearStage);
enqueue(resume);
whenLinked(() => enqueue(() => openLink(desk)));
