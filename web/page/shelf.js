// The shelf of cases: what is written about them, their ends, files. Fetched when it is first opened;
// `desk` gives and takes the case on screen.
import {counted, countsInUse, countFrom, useCounts} from "./counts.js";
import {amend, forget, isPersistent, keep, kept, keptCase} from "./cases.js";
import {download, localTime} from "./device.js";
import {isNewer, newerWords, upgraded} from "./records.js";
import {byId, fillParts, say} from "./screen.js";
import {tellWindows} from "./windows.js";

const AT_A_TIME = 3; // cases worked out between two repaints
const SHELF = {screen: "shelf"};
const PRIVATE = ["line", "used", "revision"]; // say nothing about the case itself
let desk = null;

export function begin(given) {
  desk = given;
}

/** Return what Python is told of the shelf. */
export async function told(screen, family) {
  const records = await kept();
  const closed = desk.current()?.closed ?? {};
  const shelf = {kept: records, is_lasting: await isPersistent(), closed};
  return screen === "counts" ? {...shelf, kept: [], ...countsShown(records, family)} : shelf;
}

/** Return the counts for their screen; of the kinds of set the one counted most, or the one chosen. */
function countsShown(records, family) {
  const now = counted(records);
  const [most] = Object.keys(now).sort((a, b) => now[b].sets - now[a].sets);
  return {counts: {now, on: countsInUse()}, family: family in now ? family : most ?? null};
}

/** Say by which knowledge a line was worked out: another one may rank otherwise. */
function stamp() {
  const {app, families} = document.documentElement.dataset;
  return `${app} ${families} ${countsInUse()?.at ?? ""}`;
}

/** Work out what leads in cases whose line is missing or of other knowledge, some at a time. */
export async function catchUp() {
  const mark = stamp();
  const late = (await kept()).filter((record) => !isNewer(record) && !record.deleted && record.line?.stamp !== mark);
  for (const {id, log} of late.slice(0, AT_A_TIME)) {
    const line = await desk.ask("shelf-line", {log}).then((reply) => reply.line, (problem) => ({problem: problem.words ?? "It could not be worked out."}));
    await amend(id, {line: {...line, stamp: mark}}, false);
  }
  if (late.length) await desk.repaint();
}

/** Change a kept case, and the one on screen with it; another window is told. */
async function change(id, fields) {
  const record = await amend(id, {...fields, changed: localTime()});
  if (!record) {
    say(newerWords, true);
    return null;
  }
  const now = desk.current();
  if (now?.id === id) desk.take({...now, ...fields, changed: record.changed, revision: record.revision});
  tellWindows("kept", record);
  return record;
}

function saveFile(records) {
  const bare = records.map((record) => Object.fromEntries(Object.entries(record).filter(([name]) => !PRIVATE.includes(name))));
  const text = JSON.stringify({dryjoint: "cases", format: 1, saved: localTime(), cases: bare}, null, 1);
  download(`dryjoint-${records.length === 1 ? "case" : "cases"}-${localTime().slice(0, 10)}.json`, text);
}

/** Take the cases of files; what is here stays as it is. */
export async function openFiles(files) {
  const parts = [];
  for (const file of files) {
    const {take, told: words} = await desk.ask("shelf-read", {name: file.name, text: await file.text(), here: await kept()});
    for (const given of take) await takeIn(given);
    parts.push(words);
  }
  await desk.show({...desk.view(), ...SHELF, filter: "", status: "", editing: ""});
  fillParts({"shelf-told": parts.join("")});
  byId("told")?.scrollIntoView({block: "nearest"});
  say(byId("told")?.textContent ?? "");
}

async function takeIn(given) {
  const id = given.id ?? crypto.randomUUID();
  const title = given.id ? given.title : `${given.title || "Case"} (from the file)`;
  const record = upgraded({...given, id, title: title ?? "", used: Date.now(), line: null, revision: 0});
  const {outcome} = await keep(record);
  if (outcome !== "kept") throw {kind: "refused", words: "This browser does not let the page keep the cases of the file."};
}

const DO = {
  open: ({id}) => desk.openKept(id, {screen: "bench"}),
  write: async ({id}, {title, owner, status, next, notes}) => {
    const fields = {title: title.trim(), owner: owner.trim(), status, next: next.trim(), notes};
    if (await change(id, fields)) await desk.show({...desk.view(), editing: ""}, `edit-${id}`);
  },
  close: ({id}) => (desk.current()?.id === id ? desk.show({...desk.view(), screen: "closing", filter: ""}, "title")
    : desk.openKept(id, {screen: "closing"})),
  "close-as": async (_, {how, ...ticked}) => {
    const chosen = Object.entries(ticked).filter(([name]) => name.startsWith("cause:"));
    if (how === "found" && !chosen.length) return say("Tick what it was, or say that it was not found.", true);
    const found = how === "found" ? chosen : [];
    const closed = {at: localTime(), how, causes: found.map(([name]) => name.slice(6)), titles: found.map(([, title]) => title)};
    const {id} = desk.current();
    if (!await change(id, {status: "closed", closed})) return undefined;
    await desk.show({...desk.view(), ...SHELF, filter: "", status: "", editing: ""}, "title");
    return say("The case is closed.", true);
  },
  delete: async ({id}) => {
    if (!await change(id, {deleted: localTime()})) return;
    if (desk.current()?.id === id) desk.take(null);
    await desk.show({...desk.view(), editing: ""}, "title");
    say("Deleted. It can be brought back at the end of this page.", true);
  },
  "bring-back": async ({id}) => {
    if (await change(id, {deleted: ""})) await desk.repaint();
    byId(`edit-${id}`)?.focus();
  },
  drop: async ({id}) => {
    if (!confirm("Delete this case from this browser? It cannot be brought back.")) return;
    await forget(id);
    await desk.show(desk.view(), "title");
  },
  "count-in": async () => {
    useCounts({at: localTime(), families: counted(await kept())});
    await desk.show(desk.view(), "count-out");
    say("On: our own cases count. Every screen says so.", true);
  },
  "count-out": async () => {
    useCounts(null);
    await desk.show(desk.view(), "count-in");
    say("Off: the knowledge alone counts.", true);
  },
  "save-counts": async () => {
    const now = counted(await kept());
    const tables = [];
    for (const family of Object.keys(now)) {
      tables.push(await desk.ask("shelf-counts", {view: {screen: "counts", family, counts: {now}}}));
    }
    const text = JSON.stringify({dryjoint: "counts", format: 1, saved: localTime(), families: tables}, null, 1);
    download(`dryjoint-counts-${localTime().slice(0, 10)}.json`, text);
  },
  "reset-counts": async () => {
    if (!confirm("Count only cases closed from now on, and leave our own cases out until then? The cases themselves stay.")) return;
    countFrom(localTime());
    useCounts(null);
    await desk.show(desk.view(), "title");
  },
  "save-one": async ({id}) => saveFile([await keptCase(id)]),
  "save-all": async () => saveFile((await kept()).filter((record) => !record.deleted && !isNewer(record))),
};

/** Carry out what a button or form of the shelf says. */
export function act(dataset, fields) {
  return DO[dataset.do](dataset, fields);
}
