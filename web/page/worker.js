// Runs the Python engine; the only file that names Pyodide. Stateless: every request carries its case.
// Takes {id, verb, args}, answers each with {id, answer} or {id, problem}; tells {stage} while booting.
import {evidence, hold, posteriors} from "./passes.js";

const loadedBytes = new Map(); // url -> bytes so far
const familiesLoaded = new Set();
const parts = new Map(); // name -> promise of its Python module
const PART_OF_SCREEN = { // screens that few people open
  knowledge: "leafing", own: "leafing", desk: "desk", sheet: "desk", link: "desk", shelf: "shelf", closing: "shelf", counts: "shelf",
  prove: "finishing", "set-up": "finishing",
};
const OF_A_SET = ["knowledge", "plan", "sheet", "link", "counts"]; // screens that show a set without a case
const TELL_EVERY_MS = 100; // each word of progress costs the page a repaint while Python starts
const OWN = "own/"; // begins the ids of sets compiled in this browser
let appUrl = "";
let workshopUrl = "";
let familiesUrl = "";
let site = ""; // where the browser's Python looks for modules
let pyodide = null;
let python = null; // the module web.answering
let ready = null;
let lastTold = -TELL_EVERY_MS;
let failFetch;
const fetchFailure = new Promise((_, reject) => { failFetch = reject; });
fetchFailure.catch(() => {}); // told by whoever awaits `ready`

self.onmessage = async ({data}) => {
  if (data.boot) {
    // The runtime keeps silent about a file it could not fetch, so that is watched here.
    ready = Promise.race([boot(data.boot), fetchFailure]);
    ready.then(
      () => postMessage({stage: "ready"}),
      (error) => postMessage({stage: "failed", detail: details(error)}),
    );
    return;
  }
  try {
    await ready;
    const {log, view} = data.args;
    await loadFamily(log?.family);
    if (OF_A_SET.includes(view?.screen)) await loadFamily(view.family);
    postMessage({id: data.id, ...JSON.parse(await reply(data))});
  } catch (error) {
    const problem = error.refused ? {kind: "refused", words: error.refused} : {kind: "broken", detail: details(error)};
    postMessage({id: data.id, problem});
  }
};

/** Return the answer of the part of Python that knows it, as JSON. */
async function reply(data) {
  const request = JSON.stringify(data);
  if (data.verb.startsWith("own-")) return authored(data.verb, request);
  const ofItsOwn = ["desk", "shelf"].find((name) => data.verb.startsWith(`${name}-`));
  const part = ofItsOwn ?? (data.verb === "show" ? PART_OF_SCREEN[data.args.view?.screen] : finishing(data));
  return (part ? await loadPart(part, appUrl) : python).answer(request);
}

/** The record of a case that was set up or proved takes the part that does it. */
function finishing({verb, args: {log, part}}) {
  const isOfRecord = verb === "summary" || (verb === "later" && part === "proof");
  return isOfRecord && log.inputs.some(({do: what}) => what === "prove" || what === "set") ? "finishing" : undefined;
}

/** Let the author's tools answer; a set they compile is kept for the next visit. */
async function authored(verb, request) {
  if (!parts.has("authoring")) await unpack(`${workshopUrl}/packages.zip`);
  const desk = await loadPart("authoring", workshopUrl);
  const text = desk.answer(request, (words, share) => postMessage({working: {words, share}}));
  const {family} = JSON.parse(text).answer ?? {};
  if (verb === "own-compile" && family) {
    const {keepModel} = await import("./models.js");
    await keepModel(family, appUrl, desk.dumped(family));
    familiesLoaded.add(family);
  }
  return text;
}

/** Return a Python module that is fetched when it is first needed; a failure is tried again. */
function loadPart(name, folder) {
  if (!parts.has(name)) {
    const loading = unpack(`${folder}/${name}.zip`).then(() => pyodide.pyimport(`web.${name}`));
    loading.catch(() => parts.delete(name));
    parts.set(name, loading);
  }
  return parts.get(name);
}

async function unpack(url) {
  const response = await fetch(url).catch(() => null);
  if (!response?.ok) throw {refused: "A part of this page could not be fetched. Check the connection, then try again."};
  pyodide.unpackArchive(await response.arrayBuffer(), "zip", {extractDir: site});
  pyodide.pyimport("importlib").invalidate_caches();
}

async function boot({runtime, app, workshop, families, bytes}) {
  appUrl = app;
  familiesUrl = families;
  workshopUrl = workshop;
  const bundle = fetchCounted(`${app}/bundle.zip`, bytes).then((response) => response.arrayBuffer());
  const {loadPyodide} = await import(`${runtime}/pyodide.mjs`);
  const plainFetch = self.fetch;
  self.fetch = (source, options) => fetchCounted(source, bytes, plainFetch, options);
  pyodide = await loadPyodide({
    indexURL: `${runtime}/`,
    stdLibURL: `${runtime}/stdlib.zip`,
    fsInit: async (_, {sitePackages}) => { site = sitePackages; },
  });
  self.fetch = plainFetch;
  postMessage({stage: "starting"});
  pyodide.unpackArchive(await bundle, "zip", {extractDir: site});
  python = pyodide.pyimport("web.answering");
  python.pass_elsewhere(hold, evidence, posteriors);
}

/** Fetch, and tell how far all fetches together have come; `total` in bytes. */
async function fetchCounted(source, total, fetcher = self.fetch, options = undefined) {
  const response = await fetcher(source, options).catch((error) => error);
  if (!response.ok) {
    const error = new Error(`${source}: ${response.statusText ?? response.message}`);
    failFetch(error);
    throw error;
  }
  count(String(source), response.clone().body, total);
  return response;
}

async function count(url, body, total) {
  for await (const chunk of body) {
    loadedBytes.set(url, (loadedBytes.get(url) ?? 0) + chunk.length);
    if (performance.now() - lastTold < TELL_EVERY_MS) continue;
    lastTold = performance.now();
    const loaded = [...loadedBytes.values()].reduce((sum, bytes) => sum + bytes, 0);
    postMessage({stage: "fetching", loaded, total});
  }
}

/** Hand a compiled family to Python, once; for whoever is not sure which, all of them. */
async function loadFamily(id) {
  if (!id || familiesLoaded.has(id)) return;
  if (id.startsWith(OWN)) return loadOwn(id);
  if (id === "not-sure") return loadKinds(id);
  const response = await fetched(`${familiesUrl}/${encodeURIComponent(id)}.model`, id);
  const text = await new Response(response.body.pipeThrough(new DecompressionStream("deflate"))).text();
  python.learn(id, text);
  familiesLoaded.add(id);
  postMessage({learned: id});
}

async function loadKinds(id) {
  const text = await (await fetched(`${appUrl}/${id}.json`, id)).text();
  await Promise.all(Object.keys(JSON.parse(text).shares).map(loadFamily));
  python.learn_kinds(text);
  familiesLoaded.add(id);
}

async function fetched(url, id) {
  const response = await fetch(url).catch((error) => error);
  if (response.ok) return response;
  if (!response.status) throw {refused: "This kind of set is not stored on this device, and there is no connection. Choose it again once there is one."};
  throw new Error(`the knowledge of set '${id}' is not here (${response.status})`);
}

/** Hand a set to Python that was compiled in this browser from somebody's own knowledge. */
async function loadOwn(id) {
  const {keptModel} = await import("./models.js");
  const text = await keptModel(id, appUrl);
  if (text === null) {
    throw {refused: "This case rests on your own knowledge, compiled by another version of this page or in another "
      + "browser. Open your files under “Try knowledge of your own” and compile them once more."};
  }
  python.learn(id, text);
  familiesLoaded.add(id);
}

function details(error) {
  return String(error?.stack ?? error).slice(0, 4000);
}
