// The desk of whoever writes knowledge: their files, kept in this browser, checked while they write.
// Fetched when the screen is first opened; `page` gives it {repaint, begin, enqueue}.
import {ask} from "./asking.js";
import {download} from "./device.js";
import {tellStage} from "./loading.js";
import {byId, fillParts, say} from "./screen.js";

const KEY = "own-knowledge";
const PAUSE_MS = 900; // nobody wants to be told of half a word
const PATIENCE_MS = 600_000; // compiling a set on a slow phone
const START = "title: ";

const own = read(); // {files: [{name, text}], at, isKept}
let places = []; // where each file belongs, as of the last check
let timer = 0;
let turn = 0;
let page = null;

export function begin(given) {
  page = given;
}

/** Return what Python is told of the files. */
export function ownFiles() {
  return own;
}

function read() {
  try {
    return {files: [], at: 0, ...JSON.parse(localStorage.getItem(KEY) ?? "{}"), isKept: true};
  } catch {
    return {files: [], at: 0, isKept: true};
  }
}

function keep() {
  try {
    localStorage.setItem(KEY, JSON.stringify({files: own.files, at: own.at}));
    own.isKept = true;
  } catch {
    own.isKept = false;
  }
}

document.addEventListener("input", ({target}) => {
  const file = own.files[own.at];
  if (!file || !["own-text", "own-name"].includes(target.id)) return;
  if (target.id === "own-text") file.text = target.value;
  else file.name = target.value.trim() || file.name;
  keep();
  clearTimeout(timer);
  timer = setTimeout(() => page.enqueue(check), PAUSE_MS);
});

document.addEventListener("dragover", (event) => {
  if (document.querySelector("[data-drop]")) event.preventDefault();
});

document.addEventListener("drop", (event) => {
  if (!document.querySelector("[data-drop]") || !event.dataTransfer.files.length) return;
  event.preventDefault();
  page.enqueue(() => openFiles(event.dataTransfer.files));
});

/** Take files over; one that is no UTF-8 text is refused and the others are taken. */
export async function openFiles(files) {
  const refused = [];
  for (const file of files) {
    try {
      const text = new TextDecoder("utf-8", {fatal: true}).decode(await file.arrayBuffer());
      add(file.name, text.replaceAll("\r\n", "\n"));
    } catch {
      refused.push(file.name);
    }
  }
  await page.repaint();
  if (refused.length) say(`Not UTF-8 text, and left out: ${refused.join(", ")}.`, true);
}

/** A file of the same name is replaced: it was opened anew. */
function add(name, text) {
  const known = own.files.findIndex((file) => file.name === name);
  if (known < 0) own.files.push({name, text});
  else own.files[known].text = text;
  choose(known < 0 ? own.files.length - 1 : known);
}

function choose(at) {
  own.at = Math.max(0, Math.min(at, own.files.length - 1));
  document.activeElement?.blur?.(); // the field with the focus would keep the text of the other file
  keep();
}

/** Ask the tools, telling how far they are. */
async function working(verb, args) {
  tellStage({stage: "working", words: "Fetching the tools for authors", share: 0});
  try {
    return await ask(verb, args, PATIENCE_MS);
  } finally {
    tellStage({stage: "ready"});
  }
}

/** Hold the files to the rules, and say what is wrong with them. */
export async function check() {
  clearTimeout(timer);
  byId("own-shelf")?.removeAttribute("aria-busy"); // it stays as it was
  if (!own.files.length) return;
  const mine = ++turn;
  byId("own-told")?.setAttribute("aria-busy", "true");
  const found = await working("own-check", {own});
  if (mine !== turn || !byId("own-told")) return;
  places = found.places;
  fillParts(found.parts);
  say(found.status);
  await keepOffline();
}

/** Let the tools be kept for use without a connection, and say whether they are. */
async function keepOffline() {
  const worker = (await navigator.serviceWorker?.getRegistration())?.active;
  if (!worker) return;
  worker.postMessage("store workshop");
}

navigator.serviceWorker?.addEventListener("message", ({data}) => {
  const place = byId("own-offline");
  if (data.workshop === undefined || !place) return;
  place.textContent = data.workshop
    ? "The tools for this screen are kept in this browser: they work without a connection."
    : `The tools for this screen could not be kept: ${data.failed}`;
});

const DO = {
  begin: async () => {
    add(freeName(), START);
    await page.repaint();
    byId("own-name")?.select();
  },
  choose: ({at}) => {
    choose(Number(at));
    return page.repaint();
  },
  drop: () => {
    const {name} = own.files[own.at];
    if (!confirm(`Take ${name} out of this browser? It cannot be brought back.`)) return;
    own.files.splice(own.at, 1);
    choose(own.at);
    return page.repaint();
  },
  download: () => {
    const {name, text} = own.files[own.at];
    download(name.split("/").at(-1), text, "application/yaml");
  },
  check,
  list: async () => {
    fillParts((await working("own-shelf", {})).parts);
    byId("own-shipped")?.focus();
    await keepOffline();
  },
  take: async () => {
    const {name, text} = await working("own-taken", {file: byId("own-shipped").value});
    const known = own.files.findIndex((file) => file.name === name);
    if (known < 0) add(name, text);
    else choose(known); // what was written in it is not overwritten
    return page.repaint();
  },
  line: async ({place, line}) => {
    const at = places.indexOf(place);
    if (at < 0) return say(`${place} is none of your files.`, true);
    choose(at);
    await page.repaint();
    showLine(Number(line));
  },
  diagnose: async ({family}) => {
    say("Compiling; this takes a while.", true);
    const made = await working("own-compile", {own, family});
    return page.begin(made.family);
  },
};

/** Carry out what a button of the screen says. */
export function act(dataset) {
  return DO[dataset.do](dataset);
}

function freeName() {
  const taken = own.files.map((file) => file.name);
  for (let number = 1; ; number += 1) {
    const name = number === 1 ? "my-block.yaml" : `my-block-${number}.yaml`;
    if (!taken.includes(name)) return name;
  }
}

/** Select a line in the editor and bring it into view. */
function showLine(line) {
  const area = byId("own-text");
  const lines = area.value.split("\n");
  const start = lines.slice(0, line - 1).reduce((sum, each) => sum + each.length + 1, 0);
  area.focus();
  area.setSelectionRange(start, start + (lines[line - 1] ?? "").length);
  area.scrollTop = (area.scrollHeight / lines.length) * Math.max(0, line - 5);
}
