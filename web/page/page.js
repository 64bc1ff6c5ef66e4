// The page: turns presses into inputs of the case and asks Python for <main>.
// Python writes what a button means: data-input goes into the case, data-view changes only what is
// shown, data-act is done here, data-focus tells where the focus goes.
import {ask as askPlainly, restart, start} from "./asking.js";
import {withCounts} from "./counts.js";
import {localTime, nextTheme, showTheme} from "./device.js";
import {holdingActs, openKept, resume, save, settleKind, summaries} from "./holding.js";
import {beginKeys, keysActs} from "./keys.js";
import {kitActs, lastKit, rememberKit} from "./kit.js";
import {letterActs} from "./letters.js";
import {openLink, whenLinked} from "./links.js";
import {tellStage} from "./loading.js";
import {keepKind, offlineActs, prepareOffline, showOffline} from "./offline.js";
import {begun} from "./records.js";
import {besides} from "./returning.js";
import {severalActs} from "./several.js";
import {afterRepaint, applyFilter, byId, fillParts, morph, say} from "./screen.js";
import {hideTrouble, showTrouble, troubleDetails} from "./trouble.js";
import {walkActs} from "./walk.js";
import {leavesWords, lookAtWords} from "./words.js";
import {calm, hearWindows, windowActs} from "./windows.js";

const LATER_PARTS = ["check", "map", "timeline", "kit", "record", "proof", "costs"];
const TYPING_PAUSE_MS = 120;
const PAUSE_MS = 400; // nobody has made the next check by then; who only clicks through is not held up
const ON_THE_SHELF = ["shelf", "closing", "counts"]; // screens of shelf.js
const root = document.documentElement;

let current = null; // a record, see records.js: {id, log: {format, family, inputs}, undone, ...}
let view = {screen: "home"};
let beside = {}; // what the shelf tells of the case on screen, see returning.js
let pressed = 0; // time of the press being answered, for the measure
let shown = 0; // counts what was painted, so that late answers can be dropped
let queue = Promise.resolve(); // one step at a time
let typing = 0; // timer that runs out when typing pauses
let changeOver = () => {};

/** Return a copy of the case on screen, for tests and for the curious. */
export function caseOnScreen() {
  return structuredClone(current);
}

/** Ask the worker, with our own counts while they are switched on. */
export const ask = (verb, args = {}, ...more) => askPlainly(verb, withCounts(args), ...more);

export {restart};

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
  if (current && leavesWords(at, current.log.inputs)) return lookAtWords();
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
  enqueue(() => (dataset.act ? ACTS[dataset.act](dataset, fields) : step(dataset, fields)));
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
  if (next.do === "settle") return settleKind(desk, next.family, nextView);
  const log = {...current.log, inputs: [...current.log.inputs, next]};
  const reply = await ask("show", {log, view: {...nextView, ...await toldOf(nextView)}});
  if (reply.accepted) current = {...current, log, undone: []};
  paint(reply, reply.accepted ? nextView : view, reply.focus ?? focus);
  if (!reply.accepted) return;
  rememberKit(log.inputs);
  await save(desk);
}

async function begin(family, inputs, nextView, more = {}) {
  const record = begun({format: 1, family, inputs}, more);
  const first = {...nextView, check: null, cause: null, block: null, area: "", filter: "", words: ""};
  const reply = await ask("show", {log: record.log, view: first});
  current = record; // not before: a case that cannot be shown replaces none
  beside = await besides(current);
  paint(reply, first, "title");
  await save(desk);
}

// ---- from an answer to the screen

async function show(nextView, focus) {
  const told = await toldOf(nextView);
  const own = nextView.screen === "own" ? (await authors()).ownFiles() : undefined;
  const reply = await ask("show", {log: current?.log ?? null, view: {...nextView, ...told}, own});
  paint(reply, nextView, focus);
}

/** Return what a screen is told of the cases kept here. */
async function toldOf({screen, family}) {
  if (ON_THE_SHELF.includes(screen)) return (await shelf()).told(screen, family);
  beside = await besides(current);
  return {...beside, kept: screen === "home" ? await summaries() : []};
}

function paint(reply, nextView, focus) {
  view = nextView;
  morph(byId("main"), reply.html);
  applyFilter(view.filter);
  byId("undo").disabled = !current?.log.inputs.length;
  byId("redo").disabled = !current?.undone.length;
  calm(current?.id);
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
    const {parts} = await ask("later", {log: current.log, view: {...view, ...beside, last_kit: lastKit()}, part});
    if (turn === shown) fillParts(parts);
  }
  if (view.screen === "own") await (await authors()).check();
  if (view.screen === "shelf" && turn === shown) await (await shelf()).catchUp();
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
const desk = {
  ask, begin, copy, enqueue, paint, put, say, show, still,
  current: () => current,
  openKept: (id, nextView) => openKept(desk, id, nextView),
  repaint: () => show(view),
  save: () => save(desk),
  take: (record) => { current = record; },
  view: () => view,
};

const ACTS = {
  ...keysActs(),
  ...kitActs(desk),
  ...severalActs(desk),
  ...letterActs(desk),
  ...walkActs(desk),
  ...holdingActs(desk),
  ...windowActs(desk),
  demo: async () => {
    const {log, view: wanted} = await ask("demo");
    return begin(log.family, log.inputs, {...view, ...wanted});
  },
  copy: async () => {
    const {text} = await ask("summary", {log: current.log, view: beside});
    return copy(text, "The summary is on the clipboard.");
  },
  own: async (dataset) => (await authors()).act(dataset),
  "save-file": async () => (await shelf()).act({do: "save-one", id: current.id}),
  shelf: async (dataset, fields) => (await shelf()).act(dataset, fields),
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

/** Return the shelf of cases, fetched in the same way. */
async function shelf() {
  const room = await import("./shelf.js");
  room.begin(desk);
  return room;
}

async function openFiles(picker) {
  const {id, files: [...files]} = picker;
  picker.value = ""; // else the same file, mended, would not be noticed
  if (id === "own-picker") return (await authors()).openFiles(files);
  if (id === "shelf-picker") return (await shelf()).openFiles(files);
  const text = await files[0].text();
  if (/"dryjoint"\s*:\s*"cases"/.test(text)) return (await shelf()).openFiles(files);
  const {log} = await ask("opened", {text});
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

showTheme();
beginKeys();
const url = (place) => new URL(place, document.baseURI).href;
start({runtime: url(root.dataset.runtime), app: url(root.dataset.app), workshop: url(root.dataset.workshop), families: url(root.dataset.families), bytes: Number(root.dataset.bytes)}, hearStage);
hearWindows(desk);
enqueue(() => resume(desk));
whenLinked(() => enqueue(() => openLink(desk)));
