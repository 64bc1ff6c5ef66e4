// Runs the Python engine; the only file that names Pyodide. Stateless: every request carries its case.
// Takes {id, verb, args}, answers each with {id, answer} or {id, problem}; tells {stage} while booting.

const loadedBytes = new Map(); // url -> bytes so far
const familiesLoaded = new Set();
let appUrl = "";
let python = null; // the module web.answering
let ready = null;
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
    await loadFamily(data.args.log?.family);
    await loadFamily(data.args.view?.family); // a set may be looked at without a case
    postMessage({id: data.id, ...JSON.parse(python.answer(JSON.stringify(data)))});
  } catch (error) {
    postMessage({id: data.id, problem: {kind: "broken", detail: details(error)}});
  }
};

async function boot({runtime, app, bytes}) {
  appUrl = app;
  const bundle = fetchCounted(`${app}/bundle.zip`, bytes).then((response) => response.arrayBuffer());
  const {loadPyodide} = await import(`${runtime}/pyodide.mjs`);
  let site = "";
  const plainFetch = self.fetch;
  self.fetch = (source, options) => fetchCounted(source, bytes, plainFetch, options);
  const pyodide = await loadPyodide({
    indexURL: `${runtime}/`,
    stdLibURL: `${runtime}/stdlib.zip`,
    fsInit: async (_, {sitePackages}) => { site = sitePackages; },
  });
  self.fetch = plainFetch;
  postMessage({stage: "starting"});
  pyodide.unpackArchive(await bundle, "zip", {extractDir: site});
  python = pyodide.pyimport("web.answering");
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
    const loaded = [...loadedBytes.values()].reduce((sum, bytes) => sum + bytes, 0);
    postMessage({stage: "fetching", loaded, total});
  }
}

/** Hand a compiled family to Python, once; for whoever is not sure which, all of them. */
async function loadFamily(id) {
  if (!id || familiesLoaded.has(id)) return;
  const response = await fetch(`${appUrl}/families/${encodeURIComponent(id)}.json`);
  if (!response.ok) throw new Error(`the knowledge of set '${id}' is not here (${response.status})`);
  const text = await response.text();
  if (id === "not-sure") {
    await Promise.all(Object.keys(JSON.parse(text).shares).map(loadFamily));
    python.learn_kinds(text);
  } else {
    python.learn(id, text);
  }
  familiesLoaded.add(id);
}

function details(error) {
  return String(error?.stack ?? error).slice(0, 4000);
}
